"""Which way up: the pose in which a part is printed, with the reason."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class PoseChoice:
    """The pose of one part: ``down`` is the drawn direction that faces the bed, unit vector."""

    part: str
    down: Vec3
    given: bool
    reason: str
    runner_up: str
