"""What lies in curved faces of another part, as drawn in place: balls in sockets, threads in nuts, cones in cones.

Round pegs and bores are left out, which are measured better. From points of a part's other curved faces rays go
outward; where they meet another part near by on sides that face away from each other, the part lies in it.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey import Bore, Peg, Survey

Floats = NDArray[np.float64]

FLAT_RAD, GENTLE_RAD = float(np.radians(0.3)), float(np.radians(25.0))
"""Faces that meet at an angle between these are facets of a curved one."""
POINTS_MOST = 2000
"""So many points are looked at, the largest facets first."""
ROUND_MM = 0.1
AREA_LEAST_MM2 = 15.0
"""Less of a curved face than this is a fillet or the rim of something; common practice, no source."""
TIGHT_SHARE = 5.0
"""The room is what all but so many percent of the points have: single facets lie nearer."""
AWAY_COS = -0.7
"""Sides that face away from each other, as those of a ball do."""


def curved(solid: Solid) -> NDArray[np.bool_]:
    """Return which triangles (m,) bend on gently into a neighbour, as facets of a curved face do."""
    mesh = solid.trimesh
    bend = np.asarray(mesh.face_adjacency_angles)
    found = np.zeros(len(solid.faces), dtype=bool)
    found[np.asarray(mesh.face_adjacency)[(bend > FLAT_RAD) & (bend < GENTLE_RAD)].ravel()] = True
    return found


def on_round(corners: Floats, one: Bore | Peg) -> NDArray[np.bool_]:
    """Return which triangles (n, 3, 3) lie on a round, whole or with a flat."""
    wide_mm = one.diameter_mm if isinstance(one, Peg) else one.drawn_diameter_mm
    away = corners - np.asarray(one.centre_mm)
    axis = np.asarray(one.axis)
    out = np.linalg.norm(away - (away @ axis)[..., None] * axis, axis=2)
    on: NDArray[np.bool_] = (np.abs(out - wide_mm / 2) < ROUND_MM).all(axis=1)
    return on


def curved_points(solid: Solid, survey: Survey) -> tuple[Floats, Floats, Floats]:
    """Return middles (n, 3) of a solid's curved facets, the normals there, and the area in mm² that each stands for."""
    corners = solid.corners_mm
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    doubled = np.linalg.norm(cross, axis=1)
    kept = np.flatnonzero((doubled > 0.0) & curved(solid))
    rounds: list[Bore | Peg] = [*survey.bores, *survey.possible_bores, *survey.pegs]
    for one in rounds:
        kept = kept[~on_round(corners[kept], one)]
    whole_mm2 = float(doubled[kept].sum()) / 2
    kept = kept[np.argsort(-doubled[kept], kind="stable")[:POINTS_MOST]]
    areas = doubled[kept] / 2
    areas = areas * (whole_mm2 / float(areas.sum())) if len(kept) else areas
    return corners[kept].mean(axis=1), cross[kept] / doubled[kept, None], areas


def tightest(points: Floats, normals: Floats, gaps_mm: Floats, areas_mm2: Floats) -> tuple[float, float, int] | None:
    """Return the room of both sides in mm, how wide the part is there, and the point where; None where it lies free.

    ``points`` are those that another part is near to, with their gaps to it.
    """
    if float(areas_mm2.sum()) < AREA_LEAST_MM2:
        return None
    first = int(np.argmin(normals @ normals.mean(axis=0)))
    opposed = normals @ normals[first]
    other = int(np.argmin(opposed))
    if opposed[other] > AWAY_COS:
        return None
    across = (normals[first] - normals[other]) / np.linalg.norm(normals[first] - normals[other])
    width_mm = abs(float((points[first] - points[other]) @ across))
    return 2.0 * float(np.percentile(gaps_mm, TIGHT_SHARE)), width_mm, first
