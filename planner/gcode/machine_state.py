"""The machine's state: rows of words become moves, each with what was set while it ran.

Words as desktop printers use them, beside ISO 6983's: E is filament, M82 and M83 make it absolute or relative,
M104 M109 M140 M190 set temperatures, M106 M107 the fan, M204 the acceleration, M220 and M221 percents of feed and
flow (common practice, no source).
"""

# ruff: noqa: PLR1714  compiled code compares numbers one by one
from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]

(X0, Y0, Z0, X1, Y1, Z1, DE, FEED, ACCELERATION, NOZZLE, BED, FAN, DWELL) = range(13)
"""Columns of a move: from, to (mm), filament (mm), mm/s, mm/s2, temperatures (C), fan (0 to 1), seconds of rest."""
COLUMNS_N = 13
(
    S_X,
    S_Y,
    S_Z,
    S_E,
    O_X,
    O_Y,
    O_Z,
    O_E,
    REL,
    REL_E,
    UNIT,
    PLANE,
    MODE,
    S_FEED,
    S_ACC,
    S_NOZZLE,
    S_BED,
    S_FAN,
    FEED_SHARE,
    FLOW_SHARE,
    UNKNOWN,
) = range(21)
ARC_MM = 0.002
"""Chords leave an arc by no more than this."""
CHORDS_MOST = 20_000


def start_state(acceleration_mm_s2: float) -> Floats:
    """Return the state at the start: absolute, mm, XY plane, nothing set."""
    state = np.zeros(21)
    state[[UNIT, FEED_SHARE, FLOW_SHARE]] = 1.0
    state[PLANE], state[S_ACC] = 17, acceleration_mm_s2
    state[[S_FEED, S_NOZZLE, S_BED]] = np.nan
    return state


@njit(cache=True)
def _put(out, n, state, x, y, z, de, dwell):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Write one move from where the machine stands, and stand there."""
    out[n, X0], out[n, Y0], out[n, Z0] = state[S_X], state[S_Y], state[S_Z]
    out[n, X1], out[n, Y1], out[n, Z1] = x, y, z
    out[n, DE], out[n, FEED], out[n, ACCELERATION] = de, state[S_FEED] * state[FEED_SHARE], state[S_ACC]
    out[n, NOZZLE], out[n, BED], out[n, FAN], out[n, DWELL] = state[S_NOZZLE], state[S_BED], state[S_FAN], dwell
    state[S_X], state[S_Y], state[S_Z] = x, y, z


@njit(cache=True)
def _arc(out, n, state, goal, de, w):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Write an arc as chords: about the centre I, J, K from its start, or with the radius R; P whole turns more."""
    a, b, c = 0, 1, 2
    if state[PLANE] == 18:
        a, b, c = 2, 0, 1
    elif state[PLANE] == 19:
        a, b, c = 1, 2, 0
    sa, sb, sc = state[S_X + a], state[S_X + b], state[S_X + c]
    ga, gb, gc = goal[a], goal[b], goal[c]
    unit = state[UNIT]
    left = state[MODE] == 3
    if not np.isnan(w[17]):
        r = w[17] * unit
        da, db = ga - sa, gb - sb
        half = np.sqrt(da * da + db * db) / 2.0
        rise = np.sqrt(max(r * r - half * half, 0.0))
        way = -1.0 if left == (r > 0.0) else 1.0
        if half == 0.0:
            return n
        ca, cb = (sa + ga) / 2.0 + way * rise * db / (2 * half), (sb + gb) / 2.0 - way * rise * da / (2 * half)
    else:
        ia, ib = w[8 + a], w[8 + b]
        ca, cb = sa + (0.0 if np.isnan(ia) else ia * unit), sb + (0.0 if np.isnan(ib) else ib * unit)
    radius = np.sqrt((sa - ca) ** 2 + (sb - cb) ** 2)
    first, last = np.arctan2(sb - cb, sa - ca), np.arctan2(gb - cb, ga - ca)
    turn = last - first
    if left and turn <= 1e-9:
        turn += 2.0 * np.pi
    elif not left and turn >= -1e-9:
        turn -= 2.0 * np.pi
    if not np.isnan(w[15]) and w[15] > 1:
        turn += (1.0 if left else -1.0) * 2.0 * np.pi * (w[15] - 1)
    if radius <= 0.0:
        return n
    step = 2.0 * np.arccos(max(1.0 - ARC_MM / radius, 0.7))
    chords = min(max(int(np.ceil(abs(turn) / step)), 1), CHORDS_MOST)
    end = np.sqrt((ga - ca) ** 2 + (gb - cb) ** 2)
    point = np.zeros(3)
    for k in range(1, chords + 1):
        share = k / chords
        angle, r = first + turn * share, radius + (end - radius) * share
        point[a], point[b], point[c] = ca + r * np.cos(angle), cb + r * np.sin(angle), sc + (gc - sc) * share
        if k == chords:
            point[a], point[b], point[c] = ga, gb, gc
        _put(out, n, state, point[0], point[1], point[2], de / chords, 0.0)
        n += 1
    return n


@njit("Tuple((i8, i8))(f8[:, ::1], f8[:, ::1], f8[::1], f8[:, ::1], i8)", cache=True)
def _run(values, codes, state, out, row):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Run rows until they end or ``out`` is nearly full; return the next row and the number of moves."""
    n = 0
    goal = np.zeros(4)
    while row < values.shape[0] and n < out.shape[0] - CHORDS_MOST - 1:
        w = values[row]
        move, dwell, set_place = False, 0.0, False
        for k in range(codes.shape[1]):
            g = codes[row, k]
            if np.isnan(g):
                break
            if g == 0 or g == 1 or g == 2 or g == 3:
                state[MODE] = g
                move = True
            elif g == 4:
                dwell = w[15] / 1000.0 if not np.isnan(w[15]) else (w[18] if not np.isnan(w[18]) else 0.0)
                set_place = True
            elif g == 17 or g == 18 or g == 19:
                state[PLANE] = g
            elif g == 20:
                state[UNIT] = 25.4
            elif g == 21:
                state[UNIT] = 1.0
            elif g == 90 or g == 91:
                state[REL] = state[REL_E] = g - 90
            elif g == 92.1:
                state[O_X] = state[O_Y] = state[O_Z] = state[O_E] = 0.0
                set_place = True
            elif g == 92:
                named = False
                for a in range(4):
                    word = w[23 + a] if a < 3 else w[4]
                    if not np.isnan(word):
                        state[O_X + a] = state[S_X + a] - word * state[UNIT]
                        named = True
                if not named:
                    for a in range(4):
                        state[O_X + a] = state[S_X + a]
                set_place = True
            elif g == 28:
                every = np.isnan(w[23]) and np.isnan(w[24]) and np.isnan(w[25])
                for a in range(3):
                    if every or not np.isnan(w[23 + a]):
                        state[S_X + a] = state[O_X + a] = 0.0
                set_place = True
            else:
                state[UNKNOWN] += 1
        if not np.isnan(w[12]):
            m, s = w[12], w[18]
            if np.isnan(s):
                s = w[17]
            if m == 82:
                state[REL_E] = 0
            elif m == 83:
                state[REL_E] = 1
            elif (m == 104 or m == 109) and not np.isnan(s):
                state[S_NOZZLE] = s
            elif (m == 140 or m == 190) and not np.isnan(s):
                state[S_BED] = s
            elif m == 106:
                state[S_FAN] = 1.0 if np.isnan(w[18]) else min(w[18] / 255.0, 1.0)
            elif m == 107:
                state[S_FAN] = 0.0
            elif m == 204:
                a = w[15] if not np.isnan(w[15]) else w[18]
                if not np.isnan(a) and a > 0:
                    state[S_ACC] = a
            elif m == 220 and not np.isnan(w[18]):
                state[FEED_SHARE] = w[18] / 100.0
            elif m == 221 and not np.isnan(w[18]):
                state[FLOW_SHARE] = w[18] / 100.0
            elif m != 84 and m != 105 and m != 110 and m != 117 and m != 73:
                state[UNKNOWN] += 1
            row += 1
            continue
        if not np.isnan(w[5]) and w[5] > 0:
            state[S_FEED] = w[5] * state[UNIT] / 60.0
        if dwell > 0.0:
            _put(out, n, state, state[S_X], state[S_Y], state[S_Z], 0.0, dwell)
            n += 1
        placed = not (np.isnan(w[23]) and np.isnan(w[24]) and np.isnan(w[25]) and np.isnan(w[4]))
        round_ = (state[MODE] == 2 or state[MODE] == 3) and not (
            np.isnan(w[8]) and np.isnan(w[9]) and np.isnan(w[10]) and np.isnan(w[17])
        )
        if set_place or not (placed or (move and round_)):
            row += 1
            continue
        for a in range(4):
            word = w[23 + a] if a < 3 else w[4]
            relative = state[REL] if a < 3 else state[REL_E]
            if np.isnan(word):
                goal[a] = state[S_X + a]
            elif relative == 1:
                goal[a] = state[S_X + a] + word * state[UNIT]
            else:
                goal[a] = word * state[UNIT] + state[O_X + a]
        de = (goal[3] - state[S_E]) * state[FLOW_SHARE]
        if round_:
            n = _arc(out, n, state, goal, de, w)
        else:
            _put(out, n, state, goal[0], goal[1], goal[2], de, 0.0)
            n += 1
        for a in range(4):
            state[S_X + a] = goal[a]
        row += 1
    return row, n


def moves_of(values: Floats, codes: Floats, state: Floats) -> Floats:
    """Return the moves (n, 13) of some rows; ``state`` goes on from one call to the next."""
    done, row, found = [], 0, np.empty((max(4 * len(values), 4 * CHORDS_MOST), COLUMNS_N))
    while row < len(values):
        row, n = _run(values, codes, state, found, row)
        done.append(found[:n].copy())
    return np.concatenate(done) if done else np.empty((0, COLUMNS_N))
