"""Countersinks: cones that widen from the mouth of a bore to a larger round."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.survey.bores.around_axis import across, turn
from planner.survey.bores.edge_wall import box_of
from planner.survey.survey import Bore
from planner.survey.walls.solid_for_walls import Shape

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

CONE_LEAN = (0.2, 0.97)
"""Sine of the lean of a cone's faces against the axis, least and most: 12 to 76 degrees."""
WIDER, ROUND_SHARE = 1.05, 0.03
"""A cone ends at least this much wider, and its rim is round to this share."""
ROUND_DEG = 300.0


def sink_mm(shape: Shape, bore: Bore) -> float | None:
    """Return the largest diameter of a cone that widens from one of a bore's mouths; None where there is none."""
    faces = shape.reached(*box_of(bore, 0.02 + 0.005 * bore.drawn_diameter_mm / 2))
    away = shape.solid.corners_mm[faces] - np.array(bore.centre_mm)
    along = away @ np.array(bore.axis)
    out = np.linalg.norm(away - along[:, :, None] * np.array(bore.axis), axis=2)
    found = [_cone_mm(shape, faces, (along * way, out), bore) for way in (-1.0, 1.0)]
    return max((width for width in found if width is not None), default=None)


def _cone_mm(shape: Shape, faces: Ints, place: tuple[Floats, Floats], bore: Bore) -> float | None:
    """Return the widest diameter of a cone beyond one end; ``place`` are distance along and from the axis, (k, 3)."""
    along, out = place
    axis, radius = np.array(bore.axis), bore.drawn_diameter_mm / 2
    end, slack = bore.depth_mm / 2, 0.02 + 0.005 * radius
    rim = (np.abs(along - end) < slack) & (np.abs(out - radius) < slack)
    lean = np.abs(shape.normals[faces] @ axis)
    cone = rim.any(axis=1) & (lean > CONE_LEAN[0]) & (lean < CONE_LEAN[1]) & (along > end - slack).all(axis=1)
    wide = out[cone][out[cone] > WIDER * radius]
    if not len(wide):
        return None
    largest = float(wide.max())
    flat = (shape.solid.corners_mm[faces[cone]] - np.array(bore.centre_mm)) @ across(axis).T
    if np.ptp(wide) > ROUND_SHARE * largest or turn(flat).mean() * 360.0 < ROUND_DEG:
        return None
    return 2.0 * largest
