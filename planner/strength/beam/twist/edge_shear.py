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
PIECES_N = 64
"""So many pieces an edge has at least, on the whole."""
THIN = 0.6
"""No piece is longer than so many times what a section is thick on average."""
MOST_N = 240
"""More pieces take longer than all else of a cut: a wall so thin has longer ones."""
SMOOTH = 0.002
"""Corners of an edge that stand out less than this share of a section's size are left out."""
LEAST = 1e-12
"""Nearer to its line a place lies on a piece; an edge is no shorter."""
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


def edge_shear(polygon: shapely.Polygon) -> EdgeShear:
    """Return how one polygon twists, with its holes.

    >>> round(edge_shear(shapely.box(0, 0, 1, 1)).constant_mm4, 3)  # Timoshenko and Goodier: 0.1406
    0.141
    """
    smooth = shapely.simplify(orient(polygon), SMOOTH * math.sqrt(polygon.area))
    edges = edges_of(smooth)  # of one ring after another, each from end to end
    moments = moments_within(edges)
    size_mm = float(np.abs(edges - moments.centre_mm).max()) / SMALL
    ends, ring = _pieces((edges - moments.centre_mm) / size_mm)
    tangents = ends[:, 1] - ends[:, 0]
    long = np.linalg.norm(tangents, axis=1)
    tangents /= long[:, None]
    normals = np.column_stack([tangents[:, 1], -tangents[:, 0]])
    middles = ends.mean(axis=1)
    out = (middles * normals).sum(axis=1)
    slope = _slope(ends, middles, tangents, normals, ring)
    shear = out - slope
    # The constant from the shear alone (Pohozaev 1965, from memory: 4 J = the integral of its square times r n).
    constant = float((long * out) @ shear**2) / 4.0
    return EdgeShear(
        constant_mm4=constant * size_mm**4,
        places_mm=middles * size_mm + moments.centre_mm,
        shear_mpa=shear[:, None] * tangents / (constant * size_mm**3),
    )


def _pieces(edges: Floats) -> tuple[Floats, NDArray[np.int64]]:
    """Return short pieces (n, 2 ends, 2) of edges, shorter towards their ends, and which ring each is of, outside 0."""
    moments = moments_within(edges)
    lengths = np.linalg.norm(edges[:, 1] - edges[:, 0], axis=1)
    edges, lengths = edges[lengths > LEAST], lengths[lengths > LEAST]
    round_it = float(lengths.sum())
    longest = max(min(round_it / PIECES_N, THIN * 2.0 * moments.area_mm2 / round_it), round_it / MOST_N)
    starts = np.concatenate([[True], np.abs(edges[1:, 0] - edges[:-1, 1]).max(axis=1) > LEAST])
    ring_of = np.cumsum(starts) - 1
    found, rings = [], []
    for edge, length, ring in zip(edges, lengths, ring_of, strict=True):
        pieces_n = math.ceil(length / longest)
        share = np.linspace(0.0, 1.0, pieces_n + 1)
        if pieces_n > 2:
            share = (share + (1.0 - np.cos(np.pi * share)) / 2.0) / 2.0
        at = edge[0] + share[:, None] * (edge[1] - edge[0])
        found.append(np.stack([at[:-1], at[1:]], axis=1))
        rings += [int(ring)] * pieces_n
    return np.concatenate(found), np.array(rings)


def _slope(ends: Floats, middles: Floats, tangents: Floats, normals: Floats, ring: NDArray[np.int64]) -> Floats:
    """Return the slope of the harmonic function out of each piece: r² / 2 on the edge, and on a hole's with a constant.

    Pieces lie from ``a`` to ``b`` along themselves and ``off`` square to themselves, as seen from a middle.
    """
    from_start, from_end = (ends[None, :, k] - middles[:, None] for k in (0, 1))
    a, b = ((one * tangents).sum(axis=2) for one in (from_start, from_end))
    off = (from_start * normals).sum(axis=2)
    off[np.abs(off) < LEAST] = 0.0
    ln_a, ln_b = (np.log(one * one + off * off) for one in (a, b))
    turn = np.arctan2(b, np.abs(off)) - np.arctan2(a, np.abs(off))
    logs = (b * ln_b - a * ln_a) / 2.0 - (b - a) + np.abs(off) * turn
    sides = np.sign(off) * turn
    half = (middles**2).sum(axis=1) / 2.0
    # The integral of r² / 2 times off over the square of the distance, exactly: it is a parabola along a piece.
    doubled = (half[:, None] + off * (middles @ normals.T)) * sides
    doubled += off * ((middles @ tangents.T) * (ln_b - ln_a) + b - a) / 2.0
    rings_n, pieces_n = int(ring.max()) + 1, len(ring)
    rows = np.zeros((pieces_n + rings_n - 1, pieces_n + rings_n - 1))
    rows[:pieces_n, :pieces_n] = logs
    wanted = np.zeros(len(rows))
    wanted[:pieces_n] = doubled.sum(axis=1) - math.pi * half
    for one in range(1, rings_n):
        on, last = ring == one, pieces_n + one - 1
        rows[:pieces_n, last] = math.pi * on - sides[:, on].sum(axis=1)
        rows[last, :pieces_n] = np.where(on, np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1), 0.0)
    return np.asarray(np.linalg.solve(rows, wanted)[:pieces_n])
