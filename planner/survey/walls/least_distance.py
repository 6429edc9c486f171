"""A pair of points settled where the distance between both sides is least."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.survey.walls.between_faces import CONE_COS
from planner.survey.walls.nearest import cone, nearest
from planner.survey.walls.solid_for_walls import Pairs, Shape

Floats = NDArray[np.float64]

ROUNDS = 4
"""Steps forth and back; each is exact between planes, and nearly so between an edge and a plane."""


def settled(shape: Shape, pairs: Pairs) -> Pairs:
    """Return pairs with each end moved in turn to the point nearest to the other one."""
    here, there = pairs.here.copy(), pairs.there.copy()
    toward, opposite, thickness = pairs.toward.copy(), pairs.opposite.copy(), pairs.thickness_mm.copy()
    for _ in range(ROUNDS):
        for start, end, outward in ((there, here, opposite), (here, there, toward)):
            found = nearest(shape.tree, start, start, cone(outward, CONE_COS), thickness * (1.0 + 1e-9))
            nearer = found.face >= 0
            end[nearer] = found.point_mm[nearer]
            thickness[nearer] = found.distance_mm[nearer]
    way = (there - here) / np.maximum(thickness, 1e-12)[:, None]
    moved = thickness < pairs.thickness_mm * (1.0 - 1e-9)
    return Pairs(
        here=here,
        there=there,
        toward=np.where(moved[:, None], -way, toward),
        opposite=np.where(moved[:, None], way, opposite),
        thickness_mm=thickness,
        area_mm2=pairs.area_mm2,
        face=pairs.face,
        inner=pairs.inner,
    )
