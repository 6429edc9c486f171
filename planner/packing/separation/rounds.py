"""Guided search, compiled: outlines that overlap move to better places on any bed, round after round.

Gardeyn, Vanden Berghe and Wauters 2025 (arXiv 2509.13329) separate outlines in one strip so; here outlines may
also change beds. Pairs that stay stuck gain weight, so that the search leaves them (guided local search,
Voudouris and Tsang 1999).
"""

# ruff: noqa: NPY002  compiled code has a generator of its own, one a thread; it is seeded at every call
from __future__ import annotations

import numpy as np
from numba import njit

from planner.packing.separation.bed_state import FIXED, Floats, State
from planner.packing.separation.overlap import lay_out, overlap_on, pair_overlap, put

SAMPLES_N, OWN_N, REFINED_N = 160, 60, 5
"""Places drawn for a move on all beds and on its own; so many of the best are refined."""
GROW_LEAST, GROW_MOST, SHRINK = 1.2, 2.0, 0.95
"""Factors on the weight of a pair after a round: overlapping least, overlapping most, apart (as in the paper)."""


@njit(cache=True, nogil=True)
def drawn_of(n: int) -> int:  # pragma: no cover
    """Return a whole number from 0 to n - 1."""
    return int(n * np.random.random())


@njit(cache=True, nogil=True)
def farthest(values: Floats, n: int, sign: float) -> int:  # pragma: no cover
    """Return where the largest of the first n values is, the least one where the sign is -1."""
    at = 0
    for i in range(1, n):
        if sign * values[i] > sign * values[at]:
            at = i
    return at


@njit(cache=True, nogil=True, error_model="numpy")
def refine(
    state: State, k: int, bed: int, spot: Floats, value: float, corners: Floats, circles: Floats, box: Floats
) -> float:  # pragma: no cover
    """Shift and turn outline k a little, again and again, while it overlaps less; changes ``spot``."""
    step, turn = 0.06 * state.reach[k], 0.15
    tried = np.zeros(3)
    while step > 0.001 * state.reach[k] and value > 0.0:
        axis = drawn_of(4)
        sign = 1.0 if np.random.random() < 0.5 else -1.0
        better = False
        for _ in range(2):
            for j in range(3):
                tried[j] = spot[j]
            if axis == 3:
                tried[2] += sign * turn
            else:
                tried[0] += sign * step * (axis != 1)
                tried[1] += sign * step * (axis != 0) * (1.0 if np.random.random() < 0.5 else -1.0)
            if lay_out(state, k, tried, corners, circles, box):
                found = overlap_on(state, k, bed, corners, circles, box, value)
                if found < value:
                    value, better = found, True
                    for j in range(3):
                        spot[j] = tried[j]
                    break
            sign = -sign
        step *= 1.1 if better else 0.6
        turn *= 1.1 if better else 0.6
    return value


@njit(cache=True, nogil=True, error_model="numpy")
def move(state: State, k: int, beds_n: int, corners: Floats, circles: Floats, box: Floats) -> None:  # pragma: no cover
    """Lay outline k where it overlaps least of many places drawn on all beds."""
    best = np.zeros(REFINED_N + 1) + np.inf
    spots = np.zeros((REFINED_N + 1, 3))
    beds = np.zeros(REFINED_N + 1, dtype=np.int64)
    spot, beds[REFINED_N] = np.zeros(3), state.beds[k]
    for j in range(3):
        spot[j] = spots[REFINED_N, j] = state.spots[k, j]
    lay_out(state, k, spot, corners, circles, box)
    best[REFINED_N] = overlap_on(state, k, state.beds[k], corners, circles, box, np.inf)
    for n in range(SAMPLES_N + OWN_N):
        bed = drawn_of(beds_n) if n < SAMPLES_N else state.beds[k]
        drawn = drawn_of(3)
        if drawn == 0:
            spot[2] = state.spots[k, 2] + 0.5 * np.pi * drawn_of(4)
        elif drawn == 1:
            spot[2] = state.turns[k] + 0.5 * np.pi * drawn_of(4)
        else:
            spot[2] = 2.0 * np.pi * np.random.random()
        if n >= SAMPLES_N + OWN_N // 2:
            spot[0] = state.spots[k, 0] + 0.3 * state.reach[k] * np.random.normal()
            spot[1] = state.spots[k, 1] + 0.3 * state.reach[k] * np.random.normal()
        else:
            spot[0], spot[1] = state.room[0] * np.random.random(), state.room[1] * np.random.random()
        if not lay_out(state, k, spot, corners, circles, box):
            continue
        worst = farthest(best, REFINED_N, 1.0)
        value = overlap_on(state, k, bed, corners, circles, box, best[worst])
        if value < best[worst]:
            best[worst], beds[worst] = value, bed
            for j in range(3):
                spots[worst, j] = spot[j]
            if value == 0.0:
                break
    if best[farthest(best, REFINED_N, -1.0)] > 0.0:
        for i in range(REFINED_N + 1):
            if best[i] < np.inf:
                best[i] = refine(state, k, beds[i], spots[i], best[i], corners, circles, box)
    i = farthest(best, REFINED_N + 1, -1.0)
    put(state, k, spots[i], beds[i], corners, circles, box)


@njit(cache=True, nogil=True, error_model="numpy")
def measured(  # pragma: no cover
    state: State, found: Floats, spot: Floats, corners: Floats, circles: Floats, box: Floats
) -> tuple[float, float]:
    """Fill ``found`` (n, n) with the overlap of every pair of outlines; return their sum and the largest."""
    n = len(state.beds)
    total, most = 0.0, 0.0
    found[:] = 0.0
    for k in range(n):
        if state.beds[k] < 0:
            continue
        for j in range(3):
            spot[j] = state.spots[k, j]
        lay_out(state, k, spot, corners, circles, box)
        for other in range(n):
            if state.beds[other] == FIXED or (other < k and state.beds[other] == state.beds[k]):
                value = pair_overlap(state, k, corners, circles, box, other)
                if value > 0.0:
                    found[k, other] = found[other, k] = value
                    total, most = total + value, max(most, value)
    return total, most


@njit(cache=True, nogil=True, error_model="numpy")
def weigh(state: State, found: Floats, most: float) -> None:  # pragma: no cover
    """Give pairs that overlap more weight, by their share of the largest overlap, and the others less."""
    n = len(state.beds)
    for k in range(n):
        for other in range(n):
            if found[k, other] > 0.0:
                state.weights[k, other] *= GROW_LEAST + (GROW_MOST - GROW_LEAST) * found[k, other] / most
            else:
                state.weights[k, other] = max(1.0, SHRINK * state.weights[k, other])


@njit(cache=True, nogil=True, error_model="numpy")
def rounds(state: State, beds_n: int, seed: int, rounds_n: int) -> float:  # pragma: no cover
    """Move all outlines that overlap, for some rounds; return the overlap that is left, without weights."""
    np.random.seed(seed)
    n = len(state.beds)
    corners_n, circles_n = 0, 0
    for k in range(n):
        corners_n = max(corners_n, state.ends[k + 1] - state.ends[k])
        circles_n = max(circles_n, state.pole_ends[k + 1] - state.pole_ends[k])
    corners, circles = np.zeros((corners_n, 2)), np.zeros((circles_n, 3))
    box, spot, order, found = np.zeros(4), np.zeros(3), np.zeros(n, dtype=np.int64), np.zeros((n, n))
    total = 0.0
    for number in range(rounds_n + 1):
        for k in range(n):
            order[k] = k
        total, most = measured(state, found, spot, corners, circles, box)
        if total == 0.0 or number == rounds_n:
            break
        weigh(state, found, most)
        for i in range(n):
            j = i + drawn_of(n - i)
            k, order[j] = order[j], order[i]
            if state.beds[k] >= 0:
                stuck = False
                for other in range(n):
                    stuck |= found[k, other] > 0.0
                if stuck:
                    move(state, k, beds_n, corners, circles, box)
    return total
