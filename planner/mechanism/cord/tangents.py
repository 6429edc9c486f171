"""Where a taut cord touches what it wraps: tangents between circles and points, in space too."""

from __future__ import annotations

import math

from planner.finding import Vec3
from planner.mechanism.cord.placed_stop import Placed, Ring, Spot
from planner.mechanism.cord.vectors import across, cross, dot, flat, less, plus, size, times, unit

PARALLEL = 1e-12
"""Axes whose cosine is this near to one are parallel."""
ROUNDS_MOST, STILL_MM = 200, 1e-12


def contacts(here: Placed, there: Placed, out_mm: float, come_mm: float) -> tuple[Vec3, Vec3]:
    """Return where the cord leaves one stop and where it comes to the next.

    Parameters
    ----------
    here, there
        Two stops that follow each other.
    out_mm, come_mm
        Heights along their axes of the points of contact, for circles.
    """
    if isinstance(here, Ring) and isinstance(there, Ring):
        if abs(dot(here.axis, there.axis)) > 1.0 - PARALLEL:
            return _both(here, there, out_mm, come_mm)
        return _askew(here, there, out_mm, come_mm)
    if isinstance(here, Ring):
        end = first_point(there)
        return _leaves(here, end, out_mm), end
    if isinstance(there, Ring):
        start = last_point(here)
        return start, _comes(there, start, come_mm)
    return last_point(here), first_point(there)


def first_point(stop: Placed) -> Vec3:
    """Return the first fixed point of a stop; a circle's middle stands for it."""
    if isinstance(stop, Spot):
        return stop.at_mm
    return stop.centre_mm if isinstance(stop, Ring) else stop.line_mm[0]


def last_point(stop: Placed) -> Vec3:
    """Return the last fixed point of a stop; a circle's middle stands for it."""
    if isinstance(stop, Spot):
        return stop.at_mm
    return stop.centre_mm if isinstance(stop, Ring) else stop.line_mm[-1]


def left_of(way: Vec3, axis: Vec3, rise_mm: float) -> Vec3:
    """Return the direction to the left of a tangent, seen against the axis.

    With ``way`` from one centre to the next and ``rise_mm`` the second centre's distance to the left of the cord less
    the first one's, the left normal n solves ``way . n = rise``: n = sin(phi) d + cos(phi) (axis x d), where d is the
    direction of ``way`` and sin(phi) = rise / length. An open belt has rise r2 - r1, a crossed one -(r1 + r2)
    (textbook geometry of belts, from memory).
    """
    length = size(way)
    ahead = times(way, 1.0 / length) if length > 0.0 else across(axis)
    sine = max(-1.0, min(1.0, rise_mm / length)) if length > 0.0 else math.copysign(1.0, rise_mm)
    return plus(times(ahead, sine), cross(axis, ahead), math.sqrt(1.0 - sine * sine))


def _both(here: Ring, there: Ring, out_mm: float, come_mm: float) -> tuple[Vec3, Vec3]:
    """Return the tangent between circles about parallel axes."""
    other = there.offset_mm if dot(here.axis, there.axis) > 0.0 else -there.offset_mm
    way = flat(less(there.centre_mm, here.centre_mm), here.axis)
    left = left_of(way, here.axis, other - here.offset_mm)
    to_here = times(left, -math.copysign(1.0, here.offset_mm))
    to_there = times(left, -math.copysign(1.0, other))
    return here.at(to_here, out_mm), there.at(to_there, come_mm)


def _leaves(ring: Ring, point: Vec3, height: float) -> Vec3:
    """Return where the cord leaves a circle toward a point."""
    way = flat(less(point, ring.centre_mm), ring.axis)
    return ring.at(times(left_of(way, ring.axis, -ring.offset_mm), -ring.sense), height)


def _comes(ring: Ring, point: Vec3, height: float) -> Vec3:
    """Return where the cord comes to a circle from a point."""
    way = flat(less(ring.centre_mm, point), ring.axis)
    return ring.at(times(left_of(way, ring.axis, ring.offset_mm), -ring.sense), height)


def _askew(here: Ring, there: Ring, out_mm: float, come_mm: float) -> tuple[Vec3, Vec3]:
    """Return the line between circles about axes that are not parallel.

    Seen along each axis the line touches that circle: each point of contact follows from the other until both stay.
    """
    start, end = here.centre_mm, _comes(there, here.centre_mm, come_mm)
    for _ in range(ROUNDS_MOST):
        leaves = _leaves(here, end, out_mm)
        comes = _comes(there, leaves, come_mm)
        moved = size(less(leaves, start)) + size(less(comes, end))
        start, end = leaves, comes
        if moved < STILL_MM * (1.0 + size(less(end, start))):
            break
    return start, end


def turn_back(ring: Ring, point: Vec3) -> Vec3:
    """Return the way of the cord where it lies on a circle at a point, without its climb along the axis."""
    return times(cross(ring.axis, unit(flat(less(point, ring.centre_mm), ring.axis))), ring.sense)
