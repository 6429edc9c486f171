"""The compiled interpreter: it follows the words block by block and writes the moves down."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

from planner.gcode.reading.arcs import CHORDS_MOST, centre_by_radius, chords_n, turn_rad
from planner.gcode.reading.machine_state import (
    ACCELERATION,
    BARE_N,
    BED,
    COLUMNS_N,
    DE,
    DWELL,
    E_BY_G,
    E_DOUBT_N,
    E_LAST,
    E_PER_MM,
    E_STATED,
    FAN,
    FEED,
    FEED_SHARE,
    FLOW_SHARE,
    LOST_N,
    MODE,
    NOZZLE,
    O_X,
    PLANE,
    RELATIVE,
    S_ACC,
    S_BED,
    S_E,
    S_FAN,
    S_FEED,
    S_NOZZLE,
    S_X,
    S_Y,
    S_Z,
    TOOL,
    TOOLS_N,
    UNIT,
    UNKNOWN,
    X0,
    X1,
    Y0,
    Y1,
    Z0,
    Z1,
)
from planner.gcode.reading.program_words import (
    LETTER_D,
    LETTER_E,
    LETTER_F,
    LETTER_I,
    LETTER_J,
    LETTER_K,
    LETTER_M,
    LETTER_P,
    LETTER_R,
    LETTER_S,
    LETTER_T,
    LETTER_X,
    LETTER_Y,
    LETTER_Z,
)
from planner.gcode.reading.vocabulary import (
    G_DISTANCE,
    G_DWELL,
    G_HOME,
    G_INCH,
    G_MM,
    G_MOVE,
    G_OTHER,
    G_PLACE,
    G_PLANE,
    G_UNKNOWN,
    G_WORDS,
    M_ACC,
    M_BED,
    M_E_MODE,
    M_FAN,
    M_FAN_OFF,
    M_FEED,
    M_FLOW,
    M_NOZZLE,
    M_UNKNOWN,
    M_VOLUME,
    M_WORDS,
)

Floats = NDArray[np.float64]


@njit(cache=True)
def _put(out, n, state, x, y, z, de, dwell):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Write one move from where the machine stands, and stand there."""
    out[n, X0], out[n, Y0], out[n, Z0] = state[S_X], state[S_Y], state[S_Z]
    out[n, X1], out[n, Y1], out[n, Z1] = x, y, z
    out[n, DE], out[n, FEED], out[n, ACCELERATION] = de, state[S_FEED] * state[FEED_SHARE], state[S_ACC]
    out[n, NOZZLE], out[n, BED] = state[S_NOZZLE + int(state[TOOL])], state[S_BED]
    out[n, FAN], out[n, DWELL] = state[S_FAN], dwell
    state[S_X], state[S_Y], state[S_Z] = x, y, z
    return n + 1


@njit(cache=True)
def _given(word, otherwise):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Return a word's number, or what holds where it is not there."""
    return otherwise if np.isnan(word) else word


@njit(cache=True)
def _arc(out, n, state, goal, de, w):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Write an arc as chords, P whole turns in all; it ends at the goal exactly."""
    a = 2 if state[PLANE] == 18 else (1 if state[PLANE] == 19 else 0)
    b, c = (a + 1) % 3, (a + 2) % 3
    sa, sb, sc = state[S_X + a], state[S_X + b], state[S_X + c]
    left, unit = state[MODE] == 3, state[UNIT]
    if np.isnan(w[LETTER_R]):
        ca, cb = sa + _given(w[LETTER_I + a], 0.0) * unit, sb + _given(w[LETTER_I + b], 0.0) * unit
    else:
        ca, cb = centre_by_radius(sa, sb, goal[a], goal[b], w[LETTER_R] * unit, left)
    radius = np.sqrt((sa - ca) ** 2 + (sb - cb) ** 2)
    if not radius > 0.0:
        return n
    end = np.sqrt((goal[a] - ca) ** 2 + (goal[b] - cb) ** 2)
    first, last = np.arctan2(sb - cb, sa - ca), np.arctan2(goal[b] - cb, goal[a] - ca)
    turn = turn_rad(first, last, left, _given(w[LETTER_P], 1.0) - 1.0)
    chords = chords_n(radius, turn)
    point = np.zeros(3)
    for k in range(1, chords):
        share = k / chords
        angle, r = first + turn * share, radius + (end - radius) * share
        point[a], point[b], point[c] = ca + r * np.cos(angle), cb + r * np.sin(angle), sc + (goal[c] - sc) * share
        n = _put(out, n, state, point[0], point[1], point[2], de / chords, 0.0)
    return _put(out, n, state, goal[0], goal[1], goal[2], de / chords, 0.0)


@njit(cache=True)
def _word(w, axis):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Return the word of an axis: X, Y, Z, E."""
    return w[LETTER_E] if axis == 3 else w[LETTER_X + axis]


@njit(cache=True)
def _places_named(w):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Return whether a block names a place or filament."""
    return not (np.isnan(w[LETTER_X]) and np.isnan(w[LETTER_Y]) and np.isnan(w[LETTER_Z]) and np.isnan(w[LETTER_E]))


@njit(cache=True)
def _place(g, w, state):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Say where the machine stands (G92), all axes zero without a letter, or take back what was said (G92.1)."""
    bare = not _places_named(w)
    for axis in range(4):
        word = 0.0 if bare else _word(w, axis)
        if g != 92:
            state[O_X + axis] = 0.0
        elif not np.isnan(word):
            if bare and axis < 3 and abs(state[S_X + axis] - state[O_X + axis]) > 1e-9:
                state[BARE_N] += 0.25
            state[O_X + axis] = state[S_X + axis] - word * state[UNIT]
    state[BARE_N] = np.ceil(state[BARE_N])


@njit(cache=True)
def _home(w, state):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Stand at zero in the axes named, or in all."""
    every = np.isnan(w[LETTER_X]) and np.isnan(w[LETTER_Y]) and np.isnan(w[LETTER_Z])
    for axis in range(3):
        if every or not np.isnan(w[LETTER_X + axis]):
            state[S_X + axis] = state[O_X + axis] = 0.0


@njit(cache=True)
def _set_mode(does, g, state):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Follow a G word that only sets a mode."""
    if does == G_MOVE:
        state[MODE] = g
    elif does == G_PLANE:
        state[PLANE] = g
    elif does in (G_INCH, G_MM):
        state[UNIT] = 25.4 if does == G_INCH else 1.0
    elif does == G_DISTANCE:
        state[RELATIVE] = state[E_LAST] = g - 90


@njit(cache=True)
def _g_words(codes, w, state, g_words):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Follow the G words of a block; return whether one moves, whether its letters are taken, and seconds of rest."""
    move, taken, dwell_s = False, False, 0.0
    for g in codes:
        if np.isnan(g):
            break
        does = g_words[round(10.0 * g)] if 0.0 <= g < 99.9 else G_UNKNOWN
        _set_mode(does, g, state)
        move |= does == G_MOVE
        taken |= does in (G_DWELL, G_PLACE, G_HOME, G_OTHER, G_UNKNOWN)
        if does == G_DWELL:
            dwell_s = _given(w[LETTER_P] / 1000.0, _given(w[LETTER_S], 0.0))
        elif does == G_PLACE:
            _place(g, w, state)
        elif does == G_HOME:
            _home(w, state)
        elif does == G_UNKNOWN:
            state[UNKNOWN] += 1
            state[LOST_N] += _places_named(w)
    return move, taken, dwell_s


@njit(cache=True)
def _tool(w, state):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Return the tool that a block names, or the one in use."""
    return int(min(max(_given(w[LETTER_T], state[TOOL]), 0.0), TOOLS_N - 1))


@njit(cache=True)
def _m_word(w, state, m_words):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Follow the M word of a block. A fan other than the first (P) does not cool the part."""
    m, s = w[LETTER_M], w[LETTER_S]
    does = m_words[int(m)] if 0.0 <= m < 1000.0 else M_UNKNOWN
    wait = _given(s, w[LETTER_R])
    if does == M_UNKNOWN:
        state[UNKNOWN] += 1
    elif does == M_E_MODE:
        state[E_STATED], state[E_LAST] = m - 81, m - 82
    elif does == M_NOZZLE:
        state[S_NOZZLE + _tool(w, state)] = _given(wait, state[S_NOZZLE + _tool(w, state)])
    elif does == M_BED:
        state[S_BED] = _given(wait, state[S_BED])
    elif does in (M_FAN, M_FAN_OFF) and _given(w[LETTER_P], 0.0) == 0.0:
        state[S_FAN] = min(_given(s, 255.0) / 255.0, 1.0) if does == M_FAN else 0.0
    elif does == M_VOLUME:
        d = _given(w[LETTER_D], 0.0) * state[UNIT]
        state[E_PER_MM] = 1.0 if d <= 1e-3 or s == 0.0 else np.pi * d * d / 4.0
    elif does == M_ACC:
        asked = _given(w[LETTER_P], _given(s, 0.0))
        state[S_ACC] = asked if asked > 0.0 else state[S_ACC]
    elif does in (M_FEED, M_FLOW) and not np.isnan(s):
        state[FEED_SHARE if does == M_FEED else FLOW_SHARE] = s / 100.0


@njit(cache=True)
def _goal(w, state, goal):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Fill in where a block goes: X, Y, Z and E, absolute or relative."""
    by_m = state[E_STATED] - 1.0 if state[E_STATED] > 0 else state[RELATIVE]
    e_relative = state[E_LAST] if state[E_BY_G] else by_m
    state[E_DOUBT_N] += by_m != state[E_LAST] and not np.isnan(w[LETTER_E])
    for axis in range(4):
        word = _word(w, axis)
        relative = state[RELATIVE] if axis < 3 else e_relative
        if np.isnan(word):
            goal[axis] = state[S_X + axis]
        elif relative == 1:
            goal[axis] = state[S_X + axis] + word * state[UNIT]
        else:
            goal[axis] = word * state[UNIT] + state[O_X + axis]


@njit(cache=True)
def _run(values, codes, state, out, row, g_words, m_words):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Run rows until they end or ``out`` is nearly full; return the next row and the number of moves."""
    n = 0
    goal = np.zeros(4)
    while row < values.shape[0] and n < out.shape[0] - CHORDS_MOST - 1:
        w = values[row]
        move, taken, dwell_s = _g_words(codes[row], w, state, g_words)
        row += 1
        if not np.isnan(w[LETTER_M]):
            _m_word(w, state, m_words)
            taken |= not move  # the letters are the M word's
        elif not np.isnan(w[LETTER_T]):
            state[TOOL] = _tool(w, state)
        if w[LETTER_F] > 0.0 and not (taken and not np.isnan(w[LETTER_M])):
            state[S_FEED] = w[LETTER_F] * state[UNIT] / 60.0
        if dwell_s > 0.0:
            n = _put(out, n, state, state[S_X], state[S_Y], state[S_Z], 0.0, dwell_s)
        centred = not (np.isnan(w[LETTER_I]) and np.isnan(w[LETTER_J]) and np.isnan(w[LETTER_K]))
        arc = state[MODE] >= 2 and (centred or not np.isnan(w[LETTER_R]))
        if taken or not (_places_named(w) or (move and arc)):
            continue
        _goal(w, state, goal)
        de = (goal[3] - state[S_E]) * state[FLOW_SHARE] / state[E_PER_MM]
        n = _arc(out, n, state, goal, de, w) if arc else _put(out, n, state, goal[0], goal[1], goal[2], de, 0.0)
        for axis in range(4):
            state[S_X + axis] = goal[axis]
    return row, n


def moves_of(values: Floats, codes: Floats, state: Floats) -> Floats:
    """Return the moves (n, 13) of some rows; ``state`` goes on from one call to the next."""
    done, row, found = [], 0, np.empty((max(4 * len(values), 4 * CHORDS_MOST), COLUMNS_N))
    while row < len(values):
        row, n = _run(values, codes, state, found, row, G_WORDS, M_WORDS)
        done.append(found[:n].copy())
    return np.concatenate(done) if done else np.empty((0, COLUMNS_N))
