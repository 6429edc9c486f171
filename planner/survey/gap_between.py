"""The gap between two meshes as they are drawn beside each other."""

from __future__ import annotations

from planner.mesh import Solid

SEARCH_MM = 5.0
"""Meshes farther apart than this are not drawn in place."""


def gap_between_mm(one: Solid, other: Solid) -> float | None:
    """Return the least distance between two sound meshes as drawn, in mm; None where they touch or lie apart."""
    if one.manifold is None or other.manifold is None:
        return None
    gap = float(one.manifold.min_gap(other.manifold, SEARCH_MM))
    return gap if 0.0 < gap < SEARCH_MM else None
