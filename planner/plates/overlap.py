"""How much outlines on beds overlap, and moves that make it less: guided search over weighted pairs, compiled.

An outline is its ring and the circles that fill it best. Where two rings cross, the overlap is told by how deep
their circles reach into each other, which has a slope wherever they lie (after Gardeyn, Vanden Berghe and Wauters
2025, arXiv 2509.13329, who separate outlines in one strip; here outlines may also change beds). Pairs that stay
stuck gain weight, so that the search leaves them (guided local search, Voudouris and Tsang 1999).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numba import float64, int64, njit, typeof
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SHALLOW = 0.01
"""Share of an outline's reach below which circles count as barely touching, so that the measure never ends in 0."""
SAMPLES_N, OWN_N, REFINED_N = 36, 16, 3
"""Places drawn for a move on all beds and on its own; so many of the best are refined."""
GROW_LEAST, GROW_MOST, SHRINK = 1.2, 2.0, 0.95
"""Factors on the weight of a pair after a round: overlapping least, overlapping most, apart (as in the paper)."""


class State(NamedTuple):
    """Outlines k on beds. Those of bed -1 are fixed and lie on every bed; every array is changed in place."""

    ring: Floats
    """Corners of all outlines about their own middle, mm, (n, 2); outline k has those from ends[k] to ends[k + 1]."""
    ends: Ints
    poles: Floats
    """Inner circles (x, y, radius) likewise."""
    pole_ends: Ints
    size: Floats
    """Fourth root of the hull's area: the pair's product of these makes small outlines yield to large ones."""
    reach: Floats
    turns: Floats
    """Turns in rad that lay outline k along the bed's edges: aligned[k] + j pi / 2."""
    spots: Floats
    """Middle x, y in mm and turn in rad, (k, 3)."""
    beds: Ints
    at: Floats
    """Corners where they lie now."""
    poles_at: Floats
    boxes: Floats
    weights: Floats
    room: Floats
    """Width and depth of every bed."""


def empty_state(outlines_n: int, corners_n: int, poles_n: int) -> State:
    """Return a state of zeros of a size."""
    n = outlines_n
    return State(
        ring=np.zeros((corners_n, 2)),
        ends=np.zeros(n + 1, dtype=np.int64),
        poles=np.zeros((poles_n, 3)),
        pole_ends=np.zeros(n + 1, dtype=np.int64),
        size=np.ones(n),
        reach=np.ones(n),
        turns=np.zeros(n),
        spots=np.zeros((n, 3)),
        beds=np.zeros(n, dtype=np.int64),
        at=np.zeros((corners_n, 2)),
        poles_at=np.zeros((poles_n, 3)),
        boxes=np.zeros((n, 4)),
        weights=np.ones((n, n)),
        room=np.zeros(2),
    )


STATE = typeof(empty_state(1, 3, 1))
ROWS = typeof(np.zeros((1, 2)))
ROW = typeof(np.zeros(1))
INT, REAL = int64, float64


@njit((STATE, INT, ROW, ROWS, ROWS, ROW), cache=True, nogil=True)
def lay_out(
    state: State, k: int, spot: Floats, corners: Floats, circles: Floats, box: Floats
) -> bool:  # pragma: no cover
    """Write where outline k lies at a spot, pushed into the bed; false where the bed is too small at that turn."""
    c, s = np.cos(spot[2]), np.sin(spot[2])
    first, last = state.ends[k], state.ends[k + 1]
    x0, y0, x1, y1 = np.inf, np.inf, -np.inf, -np.inf
    for i in range(first, last):
        x = c * state.ring[i, 0] - s * state.ring[i, 1]
        y = s * state.ring[i, 0] + c * state.ring[i, 1]
        corners[i - first, 0], corners[i - first, 1] = x, y
        x0, x1, y0, y1 = min(x0, x), max(x1, x), min(y0, y), max(y1, y)
    if x1 - x0 > state.room[0] or y1 - y0 > state.room[1]:
        return False
    spot[0] = min(max(spot[0], -x0), state.room[0] - x1)
    spot[1] = min(max(spot[1], -y0), state.room[1] - y1)
    box[0], box[1], box[2], box[3] = x0 + spot[0], y0 + spot[1], x1 + spot[0], y1 + spot[1]
    for i in range(last - first):
        corners[i, 0] += spot[0]
        corners[i, 1] += spot[1]
    first = state.pole_ends[k]
    for i in range(first, state.pole_ends[k + 1]):
        circles[i - first, 0] = c * state.poles[i, 0] - s * state.poles[i, 1] + spot[0]
        circles[i - first, 1] = s * state.poles[i, 0] + c * state.poles[i, 1] + spot[1]
        circles[i - first, 2] = state.poles[i, 2]
    return True


@njit((ROWS, INT, ROW, ROWS, INT, INT, ROW), cache=True, nogil=True)
def crosses(
    one: Floats, one_n: int, box: Floats, other: Floats, first: int, last: int, other_box: Floats
) -> bool:  # pragma: no cover
    """Return whether two rings cross; touching is not crossing."""
    ax, ay = one[one_n - 1, 0], one[one_n - 1, 1]
    for i in range(one_n):
        bx, by = one[i, 0], one[i, 1]
        if (
            max(ax, bx) > other_box[0]
            and min(ax, bx) < other_box[2]
            and max(ay, by) > other_box[1]
            and min(ay, by) < other_box[3]
        ):
            px, py = other[last - 1, 0], other[last - 1, 1]
            was = (bx - ax) * (py - ay) - (by - ay) * (px - ax)
            for j in range(first, last):
                qx, qy = other[j, 0], other[j, 1]
                now = (bx - ax) * (qy - ay) - (by - ay) * (qx - ax)
                if was * now < 0.0:
                    a = (qx - px) * (ay - py) - (qy - py) * (ax - px)
                    b = (qx - px) * (by - py) - (qy - py) * (bx - px)
                    if a * b < 0.0:
                        return True
                px, py, was = qx, qy, now
        ax, ay = bx, by
    return False


@njit((ROWS, INT, INT, REAL, REAL), cache=True, nogil=True)
def holds(ring: Floats, first: int, last: int, x: float, y: float) -> bool:  # pragma: no cover
    """Return whether a ring goes around a point, by the even-odd rule."""
    odd = False
    j = last - 1
    for i in range(first, last):
        if (ring[i, 1] > y) != (ring[j, 1] > y):
            odd ^= x < ring[i, 0] + (y - ring[i, 1]) * (ring[j, 0] - ring[i, 0]) / (ring[j, 1] - ring[i, 1])
        j = i
    return odd


@njit((STATE, INT, ROWS, ROWS, ROW, INT), cache=True, nogil=True)
def pair_overlap(
    state: State, k: int, corners: Floats, circles: Floats, box: Floats, other: int
) -> float:  # pragma: no cover
    """Return how much outline k, laid out in the buffers, overlaps another; 0 exactly where they are apart."""
    theirs = state.boxes[other]
    if box[0] >= theirs[2] or theirs[0] >= box[2] or box[1] >= theirs[3] or theirs[1] >= box[3]:
        return 0.0
    least = SHALLOW * max(state.reach[k], state.reach[other])
    depth, deep = 0.0, False
    for i in range(state.pole_ends[k + 1] - state.pole_ends[k]):
        for j in range(state.pole_ends[other], state.pole_ends[other + 1]):
            dx, dy = circles[i, 0] - state.poles_at[j, 0], circles[i, 1] - state.poles_at[j, 1]
            d = circles[i, 2] + state.poles_at[j, 2] - np.sqrt(dx * dx + dy * dy)
            deep |= d > 0.0
            d = d if d >= least else least * least / (2.0 * least - d)
            depth += d * min(circles[i, 2], state.poles_at[j, 2])
    n, first, last = state.ends[k + 1] - state.ends[k], state.ends[other], state.ends[other + 1]
    if (
        not deep
        and not crosses(corners, n, box, state.at, first, last, theirs)
        and not holds(state.at, first, last, corners[0, 0], corners[0, 1])
        and not holds(corners, 0, n, state.at[first, 0], state.at[first, 1])
    ):
        return 0.0
    return float(np.sqrt(depth + least * least) * state.size[k] * state.size[other])


@njit((STATE, INT, INT, ROWS, ROWS, ROW, REAL), cache=True, nogil=True)
def overlap_on(
    state: State, k: int, bed: int, corners: Floats, circles: Floats, box: Floats, most: float
) -> float:  # pragma: no cover
    """Return the weighted overlap of outline k, laid out in the buffers, on a bed; no further than past ``most``."""
    total = 0.0
    for other in range(len(state.beds)):
        if other != k and (state.beds[other] == bed or state.beds[other] < 0):
            total += state.weights[k, other] * pair_overlap(state, k, corners, circles, box, other)
            if total > most:
                return total
    return total


@njit((STATE, INT, ROW, INT, ROWS, ROWS, ROW), cache=True, nogil=True)
def put(
    state: State, k: int, spot: Floats, bed: int, corners: Floats, circles: Floats, box: Floats
) -> None:  # pragma: no cover
    """Lay outline k at a spot on a bed."""
    lay_out(state, k, spot, corners, circles, box)
    state.spots[k, :] = spot
    state.beds[k] = bed
    state.boxes[k, :] = box
    for i in range(state.ends[k + 1] - state.ends[k]):
        state.at[state.ends[k] + i, :] = corners[i]
    for i in range(state.pole_ends[k + 1] - state.pole_ends[k]):
        state.poles_at[state.pole_ends[k] + i, :] = circles[i]


@njit((STATE, INT, INT, ROW, REAL, ROWS, ROWS, ROW), cache=True, nogil=True)
def refine(
    state: State, k: int, bed: int, spot: Floats, value: float, corners: Floats, circles: Floats, box: Floats
) -> float:  # pragma: no cover
    """Shift and turn outline k a little, again and again, while it overlaps less; changes ``spot``."""
    step, turn = 0.06 * state.reach[k], 0.15
    tried = spot.copy()
    while step > 0.001 * state.reach[k] and value > 0.0:
        axis = np.random.randint(4)
        sign = 1.0 if np.random.random() < 0.5 else -1.0
        better = False
        for _ in range(2):
            tried[:] = spot
            if axis == 3:
                tried[2] += sign * turn
            else:
                tried[0] += sign * step * (axis != 1)
                tried[1] += sign * step * (axis != 0) * (1.0 if np.random.random() < 0.5 else -1.0)
            if lay_out(state, k, tried, corners, circles, box):
                found = overlap_on(state, k, bed, corners, circles, box, value)
                if found < value:
                    value, better = found, True
                    spot[:] = tried
                    break
            sign = -sign
        step *= 1.1 if better else 0.6
        turn *= 1.1 if better else 0.6
    return value


@njit((STATE, INT, INT, ROWS, ROWS, ROW), cache=True, nogil=True)
def move(state: State, k: int, beds_n: int, corners: Floats, circles: Floats, box: Floats) -> None:  # pragma: no cover
    """Lay outline k where it overlaps least of many places drawn on all beds."""
    best = np.full(REFINED_N + 1, np.inf)
    spots = np.zeros((REFINED_N + 1, 3))
    beds = np.zeros(REFINED_N + 1, dtype=np.int64)
    spots[REFINED_N], beds[REFINED_N] = state.spots[k], state.beds[k]
    spot = state.spots[k].copy()
    lay_out(state, k, spot, corners, circles, box)
    best[REFINED_N] = overlap_on(state, k, state.beds[k], corners, circles, box, np.inf)
    for n in range(SAMPLES_N + OWN_N):
        bed = np.random.randint(beds_n) if n < SAMPLES_N else state.beds[k]
        drawn = np.random.randint(3)
        if drawn == 0:
            spot[2] = state.spots[k, 2] + 0.5 * np.pi * np.random.randint(4)
        elif drawn == 1:
            spot[2] = state.turns[k] + 0.5 * np.pi * np.random.randint(4)
        else:
            spot[2] = 2.0 * np.pi * np.random.random()
        if n >= SAMPLES_N + OWN_N // 2:
            spot[0] = state.spots[k, 0] + 0.3 * state.reach[k] * np.random.normal()
            spot[1] = state.spots[k, 1] + 0.3 * state.reach[k] * np.random.normal()
        else:
            spot[0], spot[1] = state.room[0] * np.random.random(), state.room[1] * np.random.random()
        if not lay_out(state, k, spot, corners, circles, box):
            continue
        worst = int(np.argmax(best[:REFINED_N]))
        value = overlap_on(state, k, bed, corners, circles, box, best[worst])
        if value < best[worst]:
            best[worst], spots[worst], beds[worst] = value, spot, bed
            if value == 0.0:
                break
    if best[:REFINED_N].min() > 0.0:
        for i in range(REFINED_N + 1):
            if np.isfinite(best[i]):
                best[i] = refine(state, k, beds[i], spots[i], best[i], corners, circles, box)
    i = int(np.argmin(best))
    put(state, k, spots[i].copy(), beds[i], corners, circles, box)


@njit((STATE, INT, INT, INT), cache=True, nogil=True)
def rounds(state: State, beds_n: int, seed: int, rounds_n: int) -> float:  # pragma: no cover
    """Move all outlines that overlap, for some rounds; return the overlap that is left, without weights."""
    np.random.seed(seed)
    n = len(state.beds)
    corners = np.zeros((np.diff(state.ends).max(), 2))
    circles = np.zeros((np.diff(state.pole_ends).max(), 3))
    box = np.zeros(4)
    found = np.zeros((n, n))
    total = 0.0
    for number in range(rounds_n + 1):
        total, most = 0.0, 0.0
        stuck = np.zeros(n, dtype=np.bool_)
        found[:] = 0.0
        for k in range(n):
            if state.beds[k] < 0:
                continue
            spot = state.spots[k].copy()
            lay_out(state, k, spot, corners, circles, box)
            for other in range(n):
                if state.beds[other] < 0 or (other < k and state.beds[other] == state.beds[k]):
                    value = pair_overlap(state, k, corners, circles, box, other)
                    if value > 0.0:
                        found[k, other] = found[other, k] = value
                        stuck[k] = True
                        stuck[other] = True
                        total, most = total + value, max(most, value)
        if total == 0.0 or number == rounds_n:
            break
        if number or rounds_n:
            for k in range(n):
                for other in range(n):
                    if found[k, other] > 0.0:
                        state.weights[k, other] *= GROW_LEAST + (GROW_MOST - GROW_LEAST) * found[k, other] / most
                    else:
                        state.weights[k, other] = max(1.0, SHRINK * state.weights[k, other])
        for k in np.random.permutation(n):
            if stuck[k] and state.beds[k] >= 0:
                move(state, k, beds_n, corners, circles, box)
    return total
