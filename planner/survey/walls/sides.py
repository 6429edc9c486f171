"""What lies at either side of a wall: which bore, or which face in words."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from planner.survey.survey import Bore
from planner.survey.walls.solid_for_walls import Pairs, Shape

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SIDES = (("right", "left"), ("back", "front"), ("upper", "lower"))
"""Faces by the axis along which they look as drawn, z up: +x and -x, +y and -y, +z and -z."""
FACING = (("right", "left"), ("backward", "forward"), ("up", "down"))
STRAIGHT_COS = 0.94
"""Within 20 degrees of an axis."""
OUTER_MM = 0.02


def bore_of(points: Floats, bores: tuple[Bore, ...]) -> Ints:
    """Return the number of the bore on whose wall each point lies, -1 where there is none."""
    owner = np.full(len(points), -1, np.int64)
    if not len(points) or not bores:
        return owner
    tree = cKDTree(points, balanced_tree=False)
    for number, bore in enumerate(bores):
        slack = 0.02 + 0.02 * bore.drawn_diameter_mm
        reach = np.hypot(bore.depth_mm / 2, bore.drawn_diameter_mm / 2) + 2 * slack
        near = np.array(tree.query_ball_point(bore.centre_mm, reach), dtype=np.int64)
        along, radius = _round(points[near], bore)
        on = (radius > bore.diameter_mm / 2 - slack) & (radius < bore.drawn_diameter_mm / 2 + slack)
        owner[near[on & (np.abs(along) <= bore.depth_mm / 2 + slack)]] = number
    return owner


def beside(points: Floats, bores: tuple[Bore, ...], within_mm: float) -> tuple[str, ...]:
    """Return the ids of the bores whose walls come this near to any of the points."""
    found = []
    for bore in bores:
        along, radius = _round(points, bore)
        out = np.maximum(np.abs(along) - bore.depth_mm / 2, 0.0)
        off = np.abs(radius - bore.drawn_diameter_mm / 2)
        if (np.hypot(out, off) < within_mm).any():
            found.append(bore.id)
    return tuple(found)


def _round(points: Floats, bore: Bore) -> tuple[Floats, Floats]:
    """Return where points lie along a bore's axis, from its middle, and how far from it."""
    axis = np.array(bore.axis)
    away = points - np.array(bore.centre_mm)
    along = away @ axis
    return along, np.linalg.norm(away - along[:, None] * axis, axis=1)


def between(shape: Shape, pair: Pairs, bores: tuple[Bore, ...]) -> str:
    """Return both sides of one pair in words."""
    here = _side(shape, pair.here, pair.toward[0], bores, inner=bool(pair.inner[0]))
    there = _side(shape, pair.there, pair.opposite[0], bores, inner=False)
    return f"{here} and {there}"


def _side(shape: Shape, point: Floats, outward: Floats, bores: tuple[Bore, ...], *, inner: bool) -> str:
    """Return one side in words."""
    number = int(bore_of(point, bores)[0])
    if number >= 0:
        return f"bore {bores[number].id}"
    if inner:
        return "an inner edge"
    axis = int(np.argmax(np.abs(outward)))
    straight, way = abs(outward[axis]) > STRAIGHT_COS, 0 if outward[axis] > 0 else 1
    highest = float((shape.solid.vertices_mm @ outward).max())
    if float(point[0] @ outward) < highest - OUTER_MM:
        return f"an inner face facing {FACING[axis][way]}" if straight else "an inner slanted face"
    return f"the {SIDES[axis][way]} face" if straight else "an outer slanted face"
