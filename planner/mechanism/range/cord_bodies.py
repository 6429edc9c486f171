"""The room that cords take: where both ends of a stretch lie on one body, the cord lies there like a part of it.

A stretch between two bodies lies as drawn while no cord moves anything: in the way of what moves beside it. Where these
bodies move on each other it changes with them, and is no body: see ``cord_crosses``.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby, pairwise

import manifold3d
import numpy as np

from planner.finding import Vec3
from planner.job import Cord
from planner.mechanism.cord.path.cord_ways import CordWay
from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.path.settled_path import settled
from planner.mechanism.cord_effects.cord_line import cord_line
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.range.axis_shells import along
from planner.mechanism.range.device_bodies import Body

SIDES_N = 16
LEAST_MM = 1e-6
ENDS_N = 2
"""A stretch lies between so many stops."""


def cord_bodies(ways: Mapping[str, CordWay], mechanism: Mechanism, factor: float) -> tuple[Body, ...]:
    """Return the stretches of all cords, in the drawn frame for a size: a cord does not grow."""
    return tuple(body for cord, way in ways.values() for body in _of_cord(cord, way, mechanism, factor))


def _of_cord(cord: Cord, way: Sequence[PathStop] | str, mechanism: Mechanism, factor: float) -> Iterator[Body]:
    """Yield the stretches of one cord."""
    number = {copy: n for n, group in enumerate(mechanism.groups) for copy in group}
    if isinstance(way, str) or any(stop.copy not in number for stop in way):
        return
    laid = settled(way, [mechanism.frames], factor, cord.diameter_mm)
    pieces = [list(stops) for _, stops in groupby(laid, key=lambda stop: number[stop.copy])]
    between = [[one[-1], other[0]] for one, other in pairwise(pieces)]
    for mine in (*pieces, *between):
        ends = frozenset(number[stop.copy] for stop in mine)
        if len(mine) < ENDS_N:
            continue  # a lone channel holds its cord inside the part, a lone point has no length
        line = cord_line(mine, mechanism.frames, factor, cord.diameter_mm)
        shape = tube([_drawn(point, factor) for point in line], cord.diameter_mm / 2 / factor)
        if not shape.is_empty():
            yield Body(
                name=f"the cord {cord.name}",
                group=number[mine[0].copy],
                shape=shape,
                fixed=True,
                soft=True,
                ends=ends if len(ends) > 1 else frozenset(),
            )


def _drawn(point: Vec3, factor: float) -> Vec3:
    """Return a point at size in the drawn frame."""
    return point[0] / factor, point[1] / factor, point[2] / factor


def tube(line: Sequence[Vec3], radius_mm: float) -> manifold3d.Manifold:
    """Return a round body along a line, with flat ends and round corners."""
    pieces = []
    for a, b in pairwise(line):
        between = np.asarray(b) - np.asarray(a)
        long = float(np.linalg.norm(between))
        if long > LEAST_MM:
            x, y, z = (float(v) for v in between / long)
            rod = manifold3d.Manifold.cylinder(long, radius_mm, radius_mm, SIDES_N)
            pieces.append(rod.transform(along((x, y, z), a).matrix()))
    pieces += [manifold3d.Manifold.sphere(radius_mm, SIDES_N).translate(point) for point in line[1:-1]]
    return manifold3d.Manifold.batch_boolean(pieces, manifold3d.OpType.Add) if pieces else manifold3d.Manifold()
