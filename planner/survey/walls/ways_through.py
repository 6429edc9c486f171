"""Ways through a thin place: a floor is made of layers and a wall of lines, and a place may be both."""

from __future__ import annotations

import numpy as np

from planner.finding import Vec3
from planner.survey.bores.around_axis import vec3
from planner.survey.walls.solid_for_walls import Pairs

SAME_COS = 0.966
"""Ways within 15 degrees count as one."""
WAYS_MOST = 12


def ways_through(thinnest: Pairs, pairs: Pairs) -> tuple[tuple[float, Vec3], ...]:
    """Return the ways through a place, unit vectors without a sign, each with its least thickness, thinnest first.

    Parameters
    ----------
    thinnest
        The pair of points that settles the thickness of the place.
    pairs
        All pairs of the place. Beyond ``WAYS_MOST`` ways the place is round: the first ones stand for the others.
    """
    through = np.concatenate([thinnest.there - thinnest.here, pairs.there - pairs.here])
    long = np.linalg.norm(through, axis=1)
    thick = np.concatenate([thinnest.thickness_mm, pairs.thickness_mm])
    order = np.argsort(thick, kind="stable")
    order = order[long[order] > 1e-9]
    left = through[order] / long[order][:, None]
    thick, found = thick[order], list[tuple[float, Vec3]]()
    while len(left) and len(found) < WAYS_MOST:
        way = left[0]
        sign = 1.0 if way[int(np.argmax(np.abs(way) > 1e-6))] >= 0.0 else -1.0
        found.append((float(thick[0]), vec3(np.round(sign * way, 6))))
        other = np.abs(left @ way) < SAME_COS
        left, thick = left[other], thick[other]
    return tuple(found)
