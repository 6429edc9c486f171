"""Torsion of any section with any holes: its constant, and the shear along its edge.

Prandtl's stress function is r² / 2 less a harmonic one, and alike all along each edge (1903; Timoshenko and Goodier,
Theory of Elasticity, torsion, from memory). The harmonic one is solved for on the edge alone, with as much of its slope
as each short straight piece of it has (boundary elements, direct: Jaswon and Symm 1977, Integral Equation Methods in
Potential Theory and Elastostatics, from memory); round a hole it changes by a constant that no warping is left of. The
shear is what is asked for by itself, so that nothing is differenced: rectangles and tubes come out within 1 %.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.polygon import orient

from planner.strength.beam.flat_moments import edges_of, moments_within

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
PIECES_N = 64
"""So many pieces an edge has at least, on the whole."""
THIN = 0.6
"""No piece is longer than so many times what a section is thick on average."""
MOST_N = 120
"""More pieces take longer than all else of a cut: a wall so thin has longer ones (a thin box within 1.5 %)."""
SMOOTH = 0.002
"""Corners of an edge that stand out less than this share of a section's size are left out."""
LEAST = 1e-12
"""Nearer to its line a place lies on a piece; an edge is no shorter."""
ONE_CORE_N = 80
"""More unknowns are solved for half by half: with 100 numpy's library wakes all cores, which under load wait for each
other a thousand times as long as one core takes (0.2 ms, as measured)."""
SMALL = 0.25
"""Solved with this radius: at a radius of 1 a logarithm's integral has no single answer."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EdgeShear:
    """What twists a section by 1 N mm.

    Parameters
    ----------
    constant_mm4
        The torsion constant.
    places_mm
        Middles of the pieces of the edge (n, 2).
    shear_mpa
        The shear there, along the edge (n, 2): it turns with the moment, from x to y.
    """

    constant_mm4: float
    places_mm: Floats
    shear_mpa: Floats


def edge_shear(polygon: shapely.Polygon, pieces_n: int = PIECES_N, most_n: int = MOST_N) -> EdgeShear:
    """Return how one polygon twists, with its holes; its edge in ``pieces_n`` to about ``most_n`` pieces.

    >>> round(edge_shear(shapely.box(0, 0, 1, 1)).constant_mm4, 3)  # Timoshenko and Goodier: 0.1406
    0.141
    """
    smooth = shapely.simplify(orient(polygon), SMOOTH * math.sqrt(polygon.area))
    edges = edges_of(smooth)  # of one ring after another, each from end to end
    moments = moments_within(edges)
    size_mm = float(np.abs(edges - moments.centre_mm).max()) / SMALL
    starts, tangents, long, ring = _pieces((edges - moments.centre_mm) / size_mm, pieces_n, most_n)
    normals = np.column_stack([tangents[:, 1], -tangents[:, 0]])
    middles = starts + long[:, None] / 2.0 * tangents
    out = (middles * normals).sum(axis=1)
    shear = out - _slope(starts, middles, tangents, normals, long, ring)
    # The constant from the shear alone (Pohozaev 1965, from memory: 4 J = the integral of its square times r n).
    constant = float((long * out) @ shear**2) / 4.0
    return EdgeShear(
        constant_mm4=constant * size_mm**4,
        places_mm=middles * size_mm + moments.centre_mm,
        shear_mpa=shear[:, None] * tangents / (constant * size_mm**3),
    )


def _pieces(edges: Floats, pieces_n: int, most_n: int) -> tuple[Floats, Floats, Floats, Ints]:
    """Return short pieces of edges, shorter towards an edge's ends.

    Their starts and ways (n, 2 each), lengths (n,), and which ring each is of, outside 0.
    """
    moments = moments_within(edges)
    lengths = np.linalg.norm(edges[:, 1] - edges[:, 0], axis=1)
    edges, lengths = edges[lengths > LEAST], lengths[lengths > LEAST]
    round_it = float(lengths.sum())
    longest = max(min(round_it / pieces_n, THIN * 2.0 * moments.area_mm2 / round_it), round_it / most_n)
    starts = np.concatenate([[True], np.abs(edges[1:, 0] - edges[:-1, 1]).max(axis=1) > LEAST])
    counts = np.ceil(lengths / longest).astype(int)
    of = np.repeat(np.arange(len(edges)), counts)
    number = np.arange(len(of)) - np.repeat(np.cumsum(counts) - counts, counts)
    low, high = (_towards_ends((number + one) / counts[of], counts[of]) for one in (0, 1))
    ways = (edges[:, 1] - edges[:, 0]) / lengths[:, None]
    at = edges[of, 0] + (low * lengths[of])[:, None] * ways[of]
    return at, ways[of], (high - low) * lengths[of], (np.cumsum(starts) - 1)[of]


def _towards_ends(share: Floats, counts: Ints) -> Floats:
    """Return places along edges, closer to each other towards the ends of those in three pieces or more."""
    return np.where(counts > 2, (share + (1.0 - np.cos(np.pi * share)) / 2.0) / 2.0, share)


def _slope(starts: Floats, middles: Floats, tangents: Floats, normals: Floats, long: Floats, ring: Ints) -> Floats:
    """Return the slope of the harmonic function out of each piece: r² / 2 on the edge, and on a hole's with a constant.

    As seen from a middle (rows), pieces (columns) lie from ``a`` to ``b`` along themselves and ``off`` square to
    themselves; ``sides`` is the angle from start to end, which is nothing on a piece's own line.
    """
    pieces_n, rings_n = len(ring), int(ring.max()) + 1
    on_way, on_normal = middles @ tangents.T, middles @ normals.T
    a = (starts * tangents).sum(axis=1) - on_way
    b = a + long
    off = (starts * normals).sum(axis=1) - on_normal
    off[np.abs(off) < LEAST] = 0.0
    squared = off * off
    ln_a = np.log(a * a + squared)
    ln_b = ln_a[:, _next_ones(ring)]  # where one ends, the next begins
    sides = np.arctan2(off * long, a * b + squared)
    np.fill_diagonal(sides, 0.0)
    half = (middles**2).sum(axis=1) / 2.0
    rows = np.zeros((pieces_n + rings_n - 1, pieces_n + rings_n - 1))
    rows[:pieces_n, :pieces_n] = (b * ln_b - a * ln_a) / 2.0 - long + off * sides
    # The integral of r² / 2 times off over the square of the distance, exactly: it is a parabola along a piece.
    doubled = (half[:, None] + off * on_normal) * sides + off * (on_way * (ln_b - ln_a) + long) / 2.0
    wanted = np.zeros(len(rows))
    wanted[:pieces_n] = doubled.sum(axis=1) - math.pi * half
    for one in range(1, rings_n):
        on, last = ring == one, pieces_n + one - 1
        rows[:pieces_n, last] = math.pi * on - sides[:, on].sum(axis=1)
        rows[last, :pieces_n] = np.where(on, long, 0.0)
    return _solved(rows, wanted[:, None])[:pieces_n, 0]


def _next_ones(ring: Ints) -> Ints:
    """Return which piece begins where each one ends: the next, and of a ring's last its first."""
    after = np.arange(1, len(ring) + 1)
    last = np.flatnonzero(np.append(ring[1:] != ring[:-1], True))
    after[last] = np.append(0, last[:-1] + 1)
    return after


def _solved(rows: Floats, wanted: Floats) -> Floats:
    """Return what solves linear equations; the upper left half of theirs must be no less regular than all of them."""
    if len(rows) <= ONE_CORE_N:
        return np.asarray(np.linalg.solve(rows, wanted))
    half = len(rows) // 2
    first = _solved(rows[:half, :half], np.hstack([rows[:half, half:], wanted[:half]]))
    by_last, alone = first[:, : len(rows) - half], first[:, len(rows) - half :]
    last = _solved(rows[half:, half:] - rows[half:, :half] @ by_last, wanted[half:] - rows[half:, :half] @ alone)
    return np.vstack([alone - by_last @ last, last])
