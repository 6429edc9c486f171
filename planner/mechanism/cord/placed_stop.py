"""Stops of a path as they stand in the device at one angle and one size, in real mm."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from planner.finding import Vec3
from planner.mechanism.cord.path.path_stop import LineStop, PathStop, PointStop
from planner.mechanism.cord.vectors import across, dot, flat, less, plus, size, times, unit
from planner.mechanism.places.frame import Frame

ON_RIM = 1e-9
"""A point this near to a circle, as a share of its radius, lies on it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A fixed point; a ``rim`` point is one that a wrap puts before a knot that lies within its circle."""

    at_mm: Vec3
    rim: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A channel: fixed points, one after the other."""

    line_mm: tuple[Vec3, ...]
    bends_deg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A circle that the cord's centre line lies on; ``sense`` by the right hand about ``axis``."""

    axis: Vec3
    centre_mm: Vec3
    radius_mm: float
    sense: int
    slides: bool = False
    loop: bool = False

    @property
    def offset_mm(self) -> float:
        """How far the centre lies to the left of the cord, seen against the axis; negative: to the right."""
        return self.sense * self.radius_mm

    def at(self, outward: Vec3, height_mm: float) -> Vec3:
        """Return a point of the rim, in a direction across the axis and at a height along it."""
        return plus(plus(self.centre_mm, outward, self.radius_mm), self.axis, height_mm)

    def height_mm(self, point: Vec3) -> float:
        """Return how far along the axis a point lies from the centre."""
        return dot(less(point, self.centre_mm), self.axis)


Placed = Spot | Run | Ring


def stand(stops: Iterable[PathStop], frames: Mapping[str, Frame], factor: float, cord_mm: float) -> tuple[Placed, ...]:
    """Return stops where their copies stand, at a scale, for a cord of a diameter."""
    return tuple(_placed(stop, frames[stop.copy], factor, cord_mm) for stop in stops)


def _placed(stop: PathStop, frame: Frame, factor: float, cord_mm: float) -> Placed:
    """Return one stop in real mm."""
    if isinstance(stop, PointStop):
        return Spot(at_mm=times(frame.point(stop.at_mm), factor))
    if isinstance(stop, LineStop):
        line = (frame.points(stop.line_mm) * factor).tolist()
        return Run(line_mm=tuple((x, y, z) for x, y, z in line), bends_deg=stop.bends_deg)
    return Ring(
        axis=unit(frame.direction(stop.axis)),
        centre_mm=times(frame.point(stop.centre_mm), factor),
        radius_mm=stop.drawn_mm * factor + stop.bought_mm + cord_mm / 2,
        sense=stop.sense,
        slides=stop.slides,
        loop=stop.loop,
    )


def with_rim_points(placed: Sequence[Placed]) -> list[tuple[int, Placed]]:
    """Return the stops with their numbers; a point within a neighbouring wrap's circle is reached over its rim.

    A knot in a drum lies inside the circle that the cord is wound on: the cord leaves the rim right above it. The
    point on the rim carries the number of the knot.
    """
    found: list[tuple[int, Placed]] = []
    for number, here in enumerate(placed):
        before = placed[number - 1] if number else None
        if isinstance(before, Ring) and not isinstance(here, Ring):
            found += _rim(number, before, _first(here))
        found.append((number, here))
        after = placed[number + 1] if number + 1 < len(placed) else None
        if isinstance(after, Ring) and not isinstance(here, Ring):
            found += _rim(number, after, _last(here))
    return found


def _first(here: Spot | Run) -> Vec3:
    """Return where the cord comes to a stop."""
    return here.at_mm if isinstance(here, Spot) else here.line_mm[0]


def _last(here: Spot | Run) -> Vec3:
    """Return where the cord leaves a stop."""
    return here.at_mm if isinstance(here, Spot) else here.line_mm[-1]


def _rim(number: int, ring: Ring, point: Vec3) -> list[tuple[int, Placed]]:
    """Return the point on a wrap's rim above a point within it; nothing where the point lies outside."""
    away = flat(less(point, ring.centre_mm), ring.axis)
    if size(away) >= ring.radius_mm * (1.0 + ON_RIM):
        return []
    outward = unit(away) if size(away) > 0.0 else across(ring.axis)
    return [(number, Spot(at_mm=ring.at(outward, ring.height_mm(point) if ring.slides else 0.0), rim=True))]
