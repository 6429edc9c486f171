"""Whether a taut cord lies on a wrap at all, or passes beside it."""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Vec3
from planner.mechanism.cord.placed_stop import Placed, Ring, Spot
from planner.mechanism.cord.vectors import cross, dot, flat, less, size, times

BARE_MM = 1e-12


def lifted(
    stops: Sequence[Placed], laid: Sequence[tuple[Vec3, Vec3]], slack_ratio: float = 0.0
) -> list[tuple[int, float]]:
    """Return the wraps that the cord does not touch, each with how far it passes them by, in mm.

    ``laid`` holds where the cord comes to and leaves every stop. ``slack_ratio`` is how much nearer than touching, as a
    share of the radius, still counts as beside it.
    """
    found = []
    for k in range(1, len(stops) - 1):
        ring = stops[k]
        if isinstance(ring, Ring) and not ring.loop:
            by = _beside_mm(ring, laid[k - 1][1], laid[k + 1][0], _on_rim(stops[k - 1]), _on_rim(stops[k + 1]))
            if by >= -slack_ratio * ring.radius_mm:
                found.append((k, by))
    return found


def _on_rim(stop: Placed) -> bool:
    """Return whether a stop is a point on the rim of the wrap beside it."""
    return isinstance(stop, Spot) and stop.rim


def _beside_mm(ring: Ring, start: Vec3, end: Vec3, start_rim: bool, end_rim: bool) -> float:
    """Return by how much the straight way between the neighbours passes a circle on its own side; negative: through it.

    The centre of a circle that the cord goes round counter-clockwise lies to its left: the straight way is free where
    the centre lies at least a radius to the left. From a point on the rim it is free where it does not enter the disc.
    """
    way = flat(less(end, start), ring.axis)
    length = size(way)
    if length < BARE_MM:
        return -ring.radius_mm
    ahead = times(way, 1.0 / length)
    to_centre = less(ring.centre_mm, start)
    if start_rim:
        return -dot(to_centre, ahead)
    if end_rim:
        return dot(to_centre, ahead) - length
    return ring.sense * dot(to_centre, cross(ring.axis, ahead)) - ring.radius_mm
