"""Sections of a posed solid at every layer's mid-height."""

from __future__ import annotations

import manifold3d
import numpy as np
import shapely
import trimesh
from manifold3d import CrossSection as Section
from numpy.typing import NDArray

from planner.mesh import Solid

__all__ = ["Section", "rings_of", "sections_of"]

Floats = NDArray[np.float64]

SIMPLIFY_MM = 0.005
"""Corners that change an outline by less than this are left out: a hundredth of a line."""
GAP_MM = 0.05
"""Ends of an open outline this near to each other are joined, in an unsound mesh."""


def sections_of(solid: Solid, middles_mm: Floats) -> tuple[list[Section], str]:
    """Return one section for every height, and why they are only approximate (empty for a sound solid)."""
    whole = solid.manifold
    if whole is not None:
        return [whole.slice(float(z)).simplify(SIMPLIFY_MM) for z in middles_mm], ""
    reason = "the mesh is not sound (" + ", ".join(solid.faults) + "): open outlines were closed by guess"
    return [_guessed(solid, float(z)) for z in middles_mm], reason


def _guessed(solid: Solid, z_mm: float) -> Section:
    """Return the section of an unsound mesh: its loose ends snapped together, overlaps by the even-odd rule."""
    lines = trimesh.intersections.mesh_plane(solid.trimesh, [0.0, 0.0, 1.0], [0.0, 0.0, z_mm])  # type: ignore[no-untyped-call]
    if not len(lines):
        return Section()
    snapped = shapely.set_precision(shapely.multilinestrings([line[:, :2] for line in lines]), GAP_MM)
    rings = [np.asarray(p.exterior.coords)[:-1] for p in shapely.get_parts(shapely.polygonize([shapely.node(snapped)]))]
    faces = [ring for ring in rings if len(ring) >= 3]
    return Section(faces, manifold3d.FillRule.NonZero) if faces else Section()


def rings_of(section: Section) -> list[Floats]:
    """Return the rings of a section, outlines counter-clockwise, holes clockwise, (n, 2) each."""
    return [np.asarray(ring, dtype=np.float64) for ring in section.to_polygons()]
