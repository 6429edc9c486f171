"""Straight ways in: along which of the device's axes a part comes to its place without passing through another."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

import numpy as np

from planner.output.line_drawing.scene import Body
from planner.output.line_drawing.view_grid import Floats, depth_on, grid_over, looking

GRID_PX = 260
PARALLEL = 0.996
"""Cosine of 5°: the axes of hardware that are taken for one of the device's."""
TOUCH_MM = 0.4
"""Surfaces that overlap by no more are taken to touch: fits press, and pixels are coarse."""


class WaysIn:
    """Depths of every body along x, y and z, from both sides."""

    def __init__(self, bodies: Mapping[str, Body]) -> None:
        self.bodies = bodies
        self._ends: dict[tuple[str, int], tuple[Floats, Floats]] = {}
        points = {name: body.points_mm for name, body in bodies.items()}
        every = np.vstack(list(points.values()))
        self.views = [looking(way) for way in np.eye(3)]
        self.grids = [grid_over(view.flat(every), GRID_PX) for view in self.views]
        self.points = points

    def free(
        self, new: Collection[str], rest: Collection[str], onto: Collection[str], along: Sequence[Floats]
    ) -> Floats | None:
        """Return the direction in which bodies move in to where they stand; None where no axis is free, or none meets.

        Of several, the one along which they face most of ``onto``, on which they are put; one of ``along`` where that
        names any.
        """
        if not new or not onto:
            return None
        best: tuple[int, Floats] | None = None
        for axis, view in enumerate(self.views):
            if along and not any(abs(float(way @ view.sight)) > PARALLEL for way in along):
                continue
            near, far = self._span(new, axis)
            count = int((np.isfinite(near) & np.isfinite(self._span(onto, axis)[0])).sum())
            if not count:
                continue
            others_near, others_far = self._span(rest, axis)
            both = np.isfinite(near) & np.isfinite(others_near)
            before = bool(np.all(far[both] <= others_near[both] + TOUCH_MM))
            behind = bool(np.all(near[both] >= others_far[both] - TOUCH_MM))
            if (before or behind) and (best is None or count > best[0]):
                best = (count, view.sight if before else -view.sight)
        return None if best is None else best[1]

    def _span(self, names: Collection[str], axis: int) -> tuple[Floats, Floats]:
        """Return the nearest and the farthest surface of some bodies at every pixel of an axis."""
        ends = [self._of(name, axis) for name in names]
        return np.min([near for near, _ in ends], axis=0), np.max([far for _, far in ends], axis=0)

    def _of(self, name: str, axis: int) -> tuple[Floats, Floats]:
        """Return the nearest and the farthest surface of one body."""
        if (name, axis) not in self._ends:
            px = self.grids[axis].px(self.views[axis].flat(self.points[name]))
            faces = self.bodies[name].solid.faces
            near = depth_on(self.grids[axis], px, faces)
            far = -depth_on(self.grids[axis], px * [1.0, 1.0, -1.0], faces)
            self._ends[name, axis] = near, far
        return self._ends[name, axis]
