"""A section of a mesh that is not closed: the piece round a place, where the cut's own lines close about it."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

Floats = NDArray[np.float64]

SAME_MM = 1e-3
"""Ends of lines this near are one: what a seam is open by where its corners were written twice."""


def open_section_mm2(corners_mm: Floats, height_mm: float) -> float:
    """Return the area of the piece of a section that holds the origin of its plane; 0 where no lines close about it.

    Parameters
    ----------
    corners_mm
        Triangles (n, 3, 3), turned so that the section is across z.
    height_mm
        Height of the section.
    """
    lines = _cut(corners_mm, height_mm)
    if not len(lines):
        return 0.0
    ends = _joined(lines.reshape(-1, 2)).reshape(-1, 2, 2)
    ends = ends[np.abs(ends[:, 1] - ends[:, 0]).max(axis=1) > 0.0]
    pieces = shapely.polygonize(shapely.get_parts(shapely.union_all(shapely.linestrings(ends))))
    origin = shapely.Point(0.0, 0.0)
    holding = [piece for piece in shapely.get_parts(pieces) if piece.distance(origin) < SAME_MM]
    return max((float(piece.area) for piece in holding), default=0.0)


def _joined(points: Floats) -> Floats:
    """Return points (n, 2), those that hang together by steps of ``SAME_MM`` put in one place."""
    pairs = cKDTree(points).query_pairs(SAME_MM, output_type="ndarray")
    graph = coo_array((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(len(points), len(points)))
    count, which = connected_components(graph, directed=False)
    places = np.zeros((count, 2))
    places[which] = points
    joined: Floats = places[which]
    return joined


def _cut(corners_mm: Floats, height_mm: float) -> Floats:
    """Return the lines (m, 2, 2) in which a plane cuts triangles; a corner on the plane counts as above it."""
    above = corners_mm[:, :, 2] >= height_mm
    mixed = corners_mm[above.any(axis=1) & ~above.all(axis=1)]
    over = mixed[:, :, 2] >= height_mm
    alone = np.where(over.sum(axis=1) == 1, np.argmax(over, axis=1), np.argmin(over, axis=1))
    rows = np.arange(len(mixed))
    one = mixed[rows, alone]
    ends = []
    for step in (1, 2):
        other = mixed[rows, (alone + step) % 3]
        share = (height_mm - one[:, 2]) / (other[:, 2] - one[:, 2])
        ends.append((one + share[:, None] * (other - one))[:, :2])
    found: Floats = np.stack(ends, axis=1)
    return found
