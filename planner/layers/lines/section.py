"""Sections of a posed solid at every layer's mid-height."""

from __future__ import annotations

import manifold3d
import numpy as np
import shapely
import trimesh
from manifold3d import CrossSection as Section
from numpy.typing import NDArray

from planner.mesh import Solid

__all__ = ["Section", "rings_of", "sections_of", "shape_of", "signed_area_mm2"]

Floats = NDArray[np.float64]

NOTHING = shapely.union_all([])
"""What lies where nothing is cut."""
GAP_MM = 0.05
"""Ends of an open outline this near to each other are joined, in an unsound mesh."""


def sections_of(solid: Solid, middles_mm: Floats) -> tuple[list[Section], str]:
    """Return one section for every height, and why they are only approximate (empty for a sound solid)."""
    whole = solid.manifold
    if whole is not None:
        return [whole.slice(float(z)) for z in middles_mm], ""
    told = ", ".join(solid.faults) or "its surface does not close"
    reason = f"the mesh is not sound ({told}); open outlines were closed by guessing"
    return [_guessed(solid, float(z)) for z in middles_mm], reason


def _guessed(solid: Solid, z_mm: float) -> Section:
    """Return the section of an unsound mesh: loose ends joined to the nearest, overlaps by the even-odd rule."""
    lines = trimesh.intersections.mesh_plane(solid.trimesh, [0.0, 0.0, 1.0], [0.0, 0.0, z_mm])  # type: ignore[no-untyped-call]
    if not len(lines):
        return Section()
    snapped = shapely.set_precision(shapely.multilinestrings([line[:, :2] for line in lines]), GAP_MM)
    chains = [np.asarray(line.coords) for line in shapely.get_parts(shapely.line_merge(shapely.node(snapped)))]
    rings = [chain[:-1] for chain in _closed(chains) if len(chain) > 3]
    return Section(rings, manifold3d.FillRule.EvenOdd) if rings else Section()


def _closed(chains: list[Floats]) -> list[Floats]:
    """Return closed rings: each open chain is joined end to nearest end until it closes on itself."""
    rings = [chain for chain in chains if np.array_equal(chain[0], chain[-1])]
    left = [chain for chain in chains if not np.array_equal(chain[0], chain[-1])]
    while left:
        chain = left.pop(0)
        while left:
            ends = np.array([end for other in left for end in (other[0], other[-1])])
            away = np.linalg.norm(ends - chain[-1], axis=1)
            nearest = int(np.argmin(away))
            if np.linalg.norm(chain[0] - chain[-1]) <= away[nearest]:
                break
            other = left.pop(nearest // 2)
            chain = np.vstack([chain, other if nearest % 2 == 0 else other[::-1]])
        rings.append(np.vstack([chain, chain[:1]]))
    return rings


def rings_of(section: Section) -> list[Floats]:
    """Return the rings of a section, outlines counter-clockwise, holes clockwise, (n, 2) each."""
    return [np.asarray(ring, dtype=np.float64) for ring in section.to_polygons()]


def signed_area_mm2(ring: Floats) -> float:
    """Return the area of a ring (n, 2), negative for a hole."""
    x, y = ring[:, 0], ring[:, 1]
    next_x, next_y = (np.concatenate((one[1:], one[:1])) for one in (x, y))  # np.roll takes seven times as long
    return float(x @ next_y - next_x @ y) / 2.0


def shape_of(section: Section) -> shapely.Geometry:
    """Return a section as a shape with its holes."""
    rings = [(signed_area_mm2(ring), shapely.Polygon(ring)) for ring in rings_of(section)]
    if not rings:
        return NOTHING
    whole = [(area, flat if flat.is_valid else flat.buffer(0)) for area, flat in rings]
    outlines, holes = [flat for area, flat in whole if area > 0], [flat for area, flat in whole if area < 0]
    return _together(outlines).difference(_together(holes))


def _together(shapes: list[shapely.Geometry]) -> shapely.Geometry:
    """Return the union of shapes; one alone as it is, since what is cut off it next is the same to the last digit."""
    return shapes[0] if len(shapes) == 1 else shapely.union_all(shapes)
