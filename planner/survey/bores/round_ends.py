"""Whether a round band ends of its own, or is a stretch of a surface that curves on: a ball, a torus, a bend."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.facets import Facets, distinct
from planner.survey.bores.fitted_circles import COARSE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SMOOTH_RAD = float(np.radians(20.0))
"""A bend below this at the end of a band means that the surface goes on."""
SMOOTH_SHARE, BOTH_WAYS = 0.3, 0.2
"""So much of a rim must go on; so much each way, opening and closing, is a tube that bends away."""
LEAN_LEAST, LEAN_MOST = 0.02, 0.5
"""Sine of the lean from which a neighbour leaves the band, and from which it is another face whatever the bend."""
TURN_LEAST_RAD = float(np.radians(0.1))
"""What bends away less is more of the same band, drawn a little off."""
STRAIGHTER = 2.0
LONG_RADII = 4.0


def ends_are_its_own(
    solid: Solid, facets: Facets, faces: Ints, axis: Floats, radius_mm: float, slack_mm: float
) -> bool:
    """Return whether a band of triangles about an axis is straighter than what it runs out into.

    Notes
    -----
    Where the surface goes on at a rim by a bend b over a triangle as high as t, its curvature is about b / t. A
    surface of that curvature bulges by (b / t) h^2 / 8 over a band as deep as h (sagitta). Unless that is well
    beyond the slack that corners may have, the band cannot be told from a stretch of the surface that follows.
    """
    inside = np.zeros(len(facets.normals), dtype=bool)
    inside[faces] = True
    pair = distinct(facets.pairs_of[faces], len(facets.pairs))
    both = inside[facets.pairs[pair]]
    rim = both.sum(axis=1) == 1
    pair, both = pair[rim], both[rim]
    outside = np.where(both[:, 0], facets.pairs[pair, 1], facets.pairs[pair, 0])
    ends = solid.vertices_mm[facets.edges[pair]]
    edge = ends[:, 1] - ends[:, 0]
    length = np.linalg.norm(edge, axis=1)
    along = solid.corners_mm[faces] @ axis
    deep, middle = float(np.ptp(along)), float(along.min() + along.max()) / 2
    across = (np.abs(edge @ axis) < 0.5 * length) & ~facets.thin[outside]
    upper = ends.mean(axis=1) @ axis > middle
    lean = (facets.normals[outside] @ axis) * np.where(upper, 1.0, -1.0)
    leaves = (np.abs(lean) > LEAN_LEAST) | (facets.angle_rad[pair] > TURN_LEAST_RAD)
    smooth = leaves & (facets.angle_rad[pair] < SMOOTH_RAD) & (np.abs(lean) < LEAN_MOST) & across
    high = 2.0 * facets.areas_mm2[outside] / np.maximum(length, 1e-12)
    for end in (upper, ~upper):
        total, goes_on = float(length[across & end].sum()), smooth & end
        if float(length[goes_on].sum()) <= SMOOTH_SHARE * total:
            continue
        opens = float(length[goes_on & (lean > 0)].sum()) / float(length[goes_on].sum())
        if BOTH_WAYS < opens < 1.0 - BOTH_WAYS and deep < LONG_RADII * radius_mm:
            return False
        curvature = float(np.median(facets.angle_rad[pair[goes_on]] / np.maximum(high[goes_on], 1e-9)))
        if curvature * deep**2 / 8.0 < STRAIGHTER * max(slack_mm, COARSE.mm(radius_mm)):
            return False
    return True
