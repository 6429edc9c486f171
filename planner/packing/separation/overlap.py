"""How much outlines on beds overlap, compiled.

An outline is its ring and the circles that fill it best. Where two rings cross, the overlap is told by how deep
their circles reach into each other, which has a slope wherever they lie (after Gardeyn, Vanden Berghe and Wauters
2025, arXiv 2509.13329).
"""

from __future__ import annotations

import numpy as np
from numba import njit

from planner.packing.separation.bed_state import FIXED, Floats, State

SHALLOW = 0.01
"""Share of an outline's reach below which circles count as barely touching, so that the measure never ends in 0."""


@njit(cache=True, nogil=True, error_model="numpy")
def lay_out(
    state: State, k: int, spot: Floats, corners: Floats, circles: Floats, box: Floats
) -> bool:  # pragma: no cover
    """Write where outline k lies at a spot, pushed into the bed; false where the bed is too small at that turn."""
    c, s = np.cos(spot[2]), np.sin(spot[2])
    first, last = state.ends[k], state.ends[k + 1]
    state.steps[0] += last - first
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


@njit(cache=True, nogil=True, error_model="numpy")
def crosses(
    one: Floats, one_n: int, other: Floats, first: int, last: int, other_box: Floats
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


@njit(cache=True, nogil=True, error_model="numpy")
def holds(ring: Floats, first: int, last: int, x: float, y: float) -> bool:  # pragma: no cover
    """Return whether a ring goes around a point, by the even-odd rule."""
    odd = False
    j = last - 1
    for i in range(first, last):
        if (ring[i, 1] > y) != (ring[j, 1] > y):
            odd ^= x < ring[i, 0] + (y - ring[i, 1]) * (ring[j, 0] - ring[i, 0]) / (ring[j, 1] - ring[i, 1])
        j = i
    return odd


@njit(cache=True, nogil=True, error_model="numpy")
def pair_overlap(
    state: State, k: int, corners: Floats, circles: Floats, box: Floats, other: int
) -> float:  # pragma: no cover
    """Return how much outline k, laid out in the buffers, overlaps another; 0 exactly where they are apart."""
    theirs = state.boxes[other]
    if box[0] >= theirs[2] or theirs[0] >= box[2] or box[1] >= theirs[3] or theirs[1] >= box[3]:
        return 0.0
    n, first, last = state.ends[k + 1] - state.ends[k], state.ends[other], state.ends[other + 1]
    circles_n = state.pole_ends[k + 1] - state.pole_ends[k]
    state.steps[0] += n + last - first + circles_n * (state.pole_ends[other + 1] - state.pole_ends[other])
    deep = False
    for i in range(circles_n):
        for j in range(state.pole_ends[other], state.pole_ends[other + 1]):
            dx, dy = circles[i, 0] - state.poles_at[j, 0], circles[i, 1] - state.poles_at[j, 1]
            both = circles[i, 2] + state.poles_at[j, 2]
            deep |= dx * dx + dy * dy < both * both
    if (
        not deep
        and not crosses(corners, n, state.at, first, last, theirs)
        and not holds(state.at, first, last, corners[0, 0], corners[0, 1])
        and not holds(corners, 0, n, state.at[first, 0], state.at[first, 1])
    ):
        return 0.0
    least, depth = SHALLOW * max(state.reach[k], state.reach[other]), 0.0
    for i in range(circles_n):
        for j in range(state.pole_ends[other], state.pole_ends[other + 1]):
            dx, dy = circles[i, 0] - state.poles_at[j, 0], circles[i, 1] - state.poles_at[j, 1]
            d = circles[i, 2] + state.poles_at[j, 2] - np.sqrt(dx * dx + dy * dy)
            d = d if d >= least else least * least / (2.0 * least - d)
            depth += d * min(circles[i, 2], state.poles_at[j, 2])
    return float(np.sqrt(depth + least * least) * state.size[k] * state.size[other])


@njit(cache=True, nogil=True, error_model="numpy")
def overlap_on(
    state: State, k: int, bed: int, corners: Floats, circles: Floats, box: Floats, most: float
) -> float:  # pragma: no cover
    """Return the weighted overlap of outline k, laid out in the buffers, on a bed; no further than past ``most``."""
    total = 0.0
    state.steps[0] += len(state.beds)
    for other in range(len(state.beds)):
        if other != k and (state.beds[other] == bed or state.beds[other] == FIXED):
            total += float(state.weights[k, other]) * pair_overlap(state, k, corners, circles, box, other)
            if total > most:
                return total
    return total


@njit(cache=True, nogil=True, error_model="numpy")
def put(
    state: State, k: int, spot: Floats, bed: int, corners: Floats, circles: Floats, box: Floats
) -> None:  # pragma: no cover
    """Lay outline k at a spot on a bed."""
    lay_out(state, k, spot, corners, circles, box)
    state.beds[k] = bed
    for j in range(3):
        state.spots[k, j] = spot[j]
    for j in range(4):
        state.boxes[k, j] = box[j]
    for i in range(state.ends[k + 1] - state.ends[k]):
        for j in range(2):
            state.at[state.ends[k] + i, j] = corners[i, j]
    for i in range(state.pole_ends[k + 1] - state.pole_ends[k]):
        for j in range(3):
            state.poles_at[state.pole_ends[k] + i, j] = circles[i, j]
