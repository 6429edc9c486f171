"""A taut cord as a line to be drawn: its points at size, arcs in small steps."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from planner.finding import Vec3
from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.placed_stop import Ring, Run, stand
from planner.mechanism.cord.taut import Contact, taut
from planner.mechanism.cord.vectors import cross, dot, less, plus, times
from planner.mechanism.places.frame import Frame

ARC_RAD = 0.3
"""Arcs are drawn in steps of at most this."""


def cord_line(
    stops: Sequence[PathStop], frames: Mapping[str, Frame], factor: float, cord_mm: float
) -> tuple[Vec3, ...]:
    """Return the points of a taut cord in the device's frame, at size."""
    placed = stand(stops, frames, factor, cord_mm)
    points: list[Vec3] = []
    for contact in taut(placed).contacts:
        stop = placed[contact.number]
        if isinstance(stop, Ring):
            points += _arc(stop, contact)
        else:
            points += stop.line_mm if isinstance(stop, Run) else (contact.comes_mm,)
    return tuple(point for n, point in enumerate(points) if n == 0 or point != points[n - 1])


def _arc(ring: Ring, contact: Contact) -> list[Vec3]:
    """Return points on the arc that a cord lies on."""
    steps = max(1, math.ceil(contact.bend_rad / ARC_RAD))
    start = less(contact.comes_mm, ring.centre_mm)
    rise = dot(less(contact.leaves_mm, contact.comes_mm), ring.axis)
    found = []
    for n in range(1, steps):
        turned = _turned(start, ring.axis, ring.sense * contact.bend_rad * n / steps)
        found.append(plus(plus(ring.centre_mm, turned), ring.axis, rise * n / steps))
    return [contact.comes_mm, *found, contact.leaves_mm]


def _turned(way: Vec3, axis: Vec3, by_rad: float) -> Vec3:
    """Return a direction turned about an axis (Rodrigues 1840)."""
    along = times(axis, dot(way, axis))
    aside = less(way, along)
    return plus(plus(along, aside, math.cos(by_rad)), cross(axis, aside), math.sin(by_rad))
