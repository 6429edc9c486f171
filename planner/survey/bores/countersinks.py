"""Countersinks: cones that widen from the mouth of a bore to a larger round."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.around_axis import across, turn
from planner.survey.survey import Bore

Floats = NDArray[np.float64]

CONE_LEAN = (0.2, 0.97)
"""Sine of the lean of a cone's faces against the axis, least and most: 12 to 76 degrees."""
WIDER, ROUND_SHARE = 1.05, 0.03
"""A cone ends at least this much wider, and its rim is round to this share."""
ROUND_DEG = 300.0


def sink_mm(solid: Solid, normals: Floats, bore: Bore) -> float | None:
    """Return the largest diameter of a cone that widens from one of a bore's mouths; None where there is none."""
    axis, radius = np.array(bore.axis), bore.drawn_diameter_mm / 2
    away = solid.vertices_mm - np.array(bore.centre_mm)
    along = away @ axis
    out = np.linalg.norm(away - along[:, None] * axis, axis=1)
    found = [_cone_mm(solid, normals, axis, (along * way, out), bore, radius) for way in (-1.0, 1.0)]
    return max((width for width in found if width is not None), default=None)


def _cone_mm(
    solid: Solid, normals: Floats, axis: Floats, place: tuple[Floats, Floats], bore: Bore, radius: float
) -> float | None:
    """Return the widest diameter of a cone beyond one end; ``place`` are distance along and from the axis."""
    along, out = place
    end, slack = bore.depth_mm / 2, 0.02 + 0.005 * radius
    rim = (np.abs(along - end) < slack) & (np.abs(out - radius) < slack)
    lean = np.abs(normals @ axis)
    cone = rim[solid.faces].any(axis=1) & (lean > CONE_LEAN[0]) & (lean < CONE_LEAN[1])
    cone &= (along[solid.faces] > end - slack).all(axis=1)
    corners = np.unique(solid.faces[cone])
    wide = corners[out[corners] > WIDER * radius] if len(corners) else corners
    if not len(wide):
        return None
    largest = float(out[wide].max())
    flat = (solid.corners_mm[cone] - np.array(bore.centre_mm)) @ across(axis).T
    if np.ptp(out[wide]) > ROUND_SHARE * largest or turn(flat).mean() * 360.0 < ROUND_DEG:
        return None
    return 2.0 * largest
