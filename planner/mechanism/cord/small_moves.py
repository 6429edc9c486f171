"""Where copies stand over the range of a joint, and how they move there: solved once, for all cords and all sizes."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from planner.finding import Vec3
from planner.mechanism.cord.vectors import less, times
from planner.mechanism.places.frame import Frame

HALF_STEP_DEG, HALF_STEP_MM = 0.02, 0.001
"""Half the step of central differences: their error is a millionth of a mm at the sizes of a hand."""

FramesAt = Callable[[float], Mapping[str, Frame]]
"""Where copies stand at one angle of the joint, in degrees; in mm for a joint that slides."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """Copies at one place of a joint, and just before and after it, as drawn.

    Parameters
    ----------
    at_deg
        The place, in degrees; in mm for a joint that slides.
    before, here, after
        Where copies stand.
    step_rad
        From before to after; in mm as drawn for a joint that slides.
    """

    at_deg: float
    before: Mapping[str, Frame]
    here: Mapping[str, Frame]
    after: Mapping[str, Frame]
    step_rad: float
    slides: bool = False

    def per(self, factor: float) -> float:
        """Return the step at size, over which differences are taken: angles do not scale, ways do."""
        return self.step_rad * factor if self.slides else self.step_rad

    def speed_mm(self, copy: str, at_mm: Vec3, factor: float) -> Vec3:
        """Return how far a point of a copy moves for a radian of the joint, both at size."""
        own = self.here[copy].inverse().point(times(at_mm, 1.0 / factor))
        way = less(self.after[copy].point(own), self.before[copy].point(own))
        return times(way, factor / self.per(factor))


def motions_over(frames: FramesAt, places: Iterable[float], *, slides: bool = False) -> tuple[Motion, ...]:
    """Return the motion at rising places of a joint."""
    half = HALF_STEP_MM if slides else HALF_STEP_DEG
    return tuple(
        Motion(
            at_deg=place,
            before=frames(place - half),
            here=frames(place),
            after=frames(place + half),
            step_rad=2.0 * half if slides else math.radians(2.0 * half),
            slides=slides,
        )
        for place in places
    )
