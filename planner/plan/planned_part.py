"""A planned part: one kind of part as drawn, as measured, and as it will be printed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.job import Part
from planner.layers import PartEstimate
from planner.mesh import Solid, posed_points
from planner.pose import PoseChoice
from planner.survey import Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedPart:
    """One kind of part: as drawn, as measured, and as it will be printed.

    ``scale_percent`` is (x, y, z); ``posed`` is at size, mirrored where the side asks for it, turned so
    that ``pose.down`` is down, standing on z = 0 with its bounding box centred on x = y = 0.
    """

    part: Part
    solid: Solid
    survey: Survey
    pose: PoseChoice
    scale_percent: Vec3
    mirrored: bool
    sized: Solid
    """At size and mirrored, in the drawn orientation."""
    posed: Solid
    estimate: PartEstimate | None
    other_way: PartEstimate | None
    """The estimate in the next best pose, where the pose was chosen: what that pose would cost."""
    outline_mm: tuple[tuple[tuple[float, float], ...], ...]
    """Rings of the shadow of ``posed`` on the bed, outer ring first, then holes."""
    mass_g: float | None
    """Of one copy, support and brim not counted; None for an unsound mesh."""
    file: str
    """Path of the part's mesh at size, relative to the plan's folder."""

    def on_bed(self, points_mm: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return drawn places (n, 3) where they stand on the bed: scaled, mirrored, turned, moved as the part was."""
        side, down = np.array(self.scale_percent) / 100.0, self.pose.down
        if self.mirrored:
            side, down = side * np.array([-1.0, 1.0, 1.0]), (-down[0], down[1], down[2])
        return posed_points(np.asarray(points_mm, dtype=np.float64) * side, self.sized, down)

    @property
    def runner_up(self) -> str:
        """The next best way up and what it would cost a copy; empty where the pose is stated, or the only one."""
        other, mine = self.other_way, self.estimate
        if other is None or mine is None:
            return self.pose.runner_up
        minutes, cm3 = (other.duration_s - mine.duration_s) / 60.0, (other.deposited_mm3 - mine.deposited_mm3) / 1000.0
        return f"{self.pose.runner_up}: {minutes:+.0f} min and {cm3:+.1f} cm³ a copy"
