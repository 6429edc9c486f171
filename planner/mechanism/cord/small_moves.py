"""Where copies stand over the range of a joint, and how they move there: solved once, for all cords and all sizes."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from planner.finding import Vec3
from planner.mechanism.cord.vectors import dot, times
from planner.mechanism.places.frame import Frame

HALF_STEP_DEG, HALF_STEP_MM = 0.02, 0.001
"""Half the step of central differences: their error is a millionth of a mm at the sizes of a hand."""
STILL = 1e-9
"""A copy whose frame changes by less than this over the step stands still."""

FramesAt = Callable[[float], Mapping[str, Frame]]
"""Where copies stand at one angle of the joint, in degrees; in mm for a joint that slides."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Flow:
    """How fast every point of a body moves, as drawn: speed = turn p + way, for a radian (or a mm) of the joint."""

    turn: tuple[Vec3, Vec3, Vec3]
    way: Vec3

    def speed_mm(self, p: Vec3) -> Vec3:
        """Return the speed of the body's point that lies at ``p``."""
        x, y, z = (dot(row, p) + way for row, way in zip(self.turn, self.way, strict=True))
        return x, y, z


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """Copies at one place of a joint, and just before and after it, as drawn.

    Parameters
    ----------
    at_deg
        The place, in degrees; in mm for a joint that slides.
    before, here, after
        Where copies stand.
    flows
        How the copies move that do.
    step_rad
        From before to after; in mm as drawn for a joint that slides.
    """

    at_deg: float
    before: Mapping[str, Frame]
    here: Mapping[str, Frame]
    after: Mapping[str, Frame]
    flows: Mapping[str, Flow]
    step_rad: float
    slides: bool = False

    def per(self, factor: float) -> float:
        """Return the step at size, over which differences are taken: angles do not scale, ways do."""
        return self.step_rad * factor if self.slides else self.step_rad

    def speed_mm(self, copy: str, at_mm: Vec3, factor: float) -> Vec3:
        """Return how far the point of a copy that lies at ``at_mm`` moves for a radian of the joint, both at size."""
        flow = self.flows.get(copy)
        if flow is None:
            return 0.0, 0.0, 0.0
        return times(flow.speed_mm(times(at_mm, 1.0 / factor)), 1.0 if self.slides else factor)


def motions_over(frames: FramesAt, places: Iterable[float], *, slides: bool = False) -> tuple[Motion, ...]:
    """Return the motion at rising places of a joint."""
    half = HALF_STEP_MM if slides else HALF_STEP_DEG
    step = 2.0 * half if slides else math.radians(2.0 * half)
    found = []
    for place in places:
        before, here, after = frames(place - half), frames(place), frames(place + half)
        flows = {copy: _flow(before[copy], frame, after[copy], step) for copy, frame in here.items()}
        found.append(
            Motion(
                at_deg=place,
                before=before,
                here=here,
                after=after,
                flows={copy: flow for copy, flow in flows.items() if flow is not None},
                step_rad=step,
                slides=slides,
            )
        )
    return tuple(found)


def _flow(before: Frame, here: Frame, after: Frame, step: float) -> Flow | None:
    """Return how a body moves, by central differences of its frame; None where it stands still."""
    turned, shifted = after.turn - before.turn, after.shift_mm - before.shift_mm
    if max(float(np.abs(turned).max()), float(np.abs(shifted).max())) < STILL:
        return None
    turn = turned @ here.turn.T / step
    way = shifted / step - turn @ here.shift_mm
    rows = [(float(x), float(y), float(z)) for x, y, z in turn]
    return Flow(turn=(rows[0], rows[1], rows[2]), way=(float(way[0]), float(way[1]), float(way[2])))
