"""Guided search, compiled: outlines that overlap move to better places on any bed, round after round.

Gardeyn, Vanden Berghe and Wauters 2025 (arXiv 2509.13329) separate outlines in one strip so; here outlines may
also change beds. Pairs that stay stuck gain weight, so that the search leaves them (guided local search,
Voudouris and Tsang 1999).
"""

# ruff: noqa: NPY002  compiled code has a generator of its own, one a thread; it is seeded at every call
from __future__ import annotations

import numpy as np
from numba import njit

from planner.plates.bed_state import INT, REAL, ROW, ROWS, STATE, Floats, State
from planner.plates.overlap import lay_out, overlap_on, pair_overlap, put

SAMPLES_N, OWN_N, REFINED_N = 160, 60, 5
"""Places drawn for a move on all beds and on its own; so many of the best are refined."""
GROW_LEAST, GROW_MOST, SHRINK = 1.2, 2.0, 0.95
"""Factors on the weight of a pair after a round: overlapping least, overlapping most, apart (as in the paper)."""


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
