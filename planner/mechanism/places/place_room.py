"""What stands already, and whether one more piece has room beside it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import manifold3d
import numpy as np

from planner.job import part_of
from planner.mechanism.places.axis_fits import Axis
from planner.mechanism.places.frame import Frame
from planner.mesh import Solid

OVERLAP_SHARE = 0.005
"""More of the smaller body than this inside the other, and they cannot both stand there; a press fit takes less."""
SAME_SHARE = 0.995
"""Two ways to stand that share so much of the body are one."""
QUARTERS_DEG = (0.0, 90.0, 180.0, 270.0)


@dataclass(frozen=True, kw_only=True)
class Room:
    """The copies that stand, and the axis that each of those put together hangs on."""

    solids: Mapping[str, Solid]
    frames: dict[str, Frame]
    hangs: dict[str, Axis] = field(default_factory=dict)

    def body(self, copy: str, frame: Frame) -> manifold3d.Manifold | None:
        """Return a copy's body where a frame puts it; None for a mesh with faults."""
        shape = self.solids[part_of(copy)].manifold
        return None if shape is None else shape.transform(frame.matrix())

    def free(self, piece: Sequence[str], frame: Frame) -> bool:
        """Return whether a piece stands there without being inside anything."""
        for copy in piece:
            mine = self.body(copy, frame)
            if mine is None:
                return False
            for other, there in self.frames.items():
                theirs = self.body(other, there)
                if theirs is None:
                    continue
                shared = float((mine ^ theirs).volume())
                if shared > OVERLAP_SHARE * min(float(mine.volume()), float(theirs.volume())):
                    return False
        return True

    def same(self, piece: Sequence[str], one: Frame, other: Frame, axis: Axis | None) -> bool:
        """Return whether two frames put a piece to the same place, turned about an axis where it may turn."""
        turns = [0.0] if axis is None else [self._turn_deg(piece, one, other, axis) + deg for deg in QUARTERS_DEG]
        for deg in turns:
            turned = other if axis is None else other.turned_about(axis.way, axis.at_mm, deg)
            if all(self._alike(copy, one, turned) for copy in piece):
                return True
        return False

    def _alike(self, copy: str, one: Frame, other: Frame) -> bool:
        """Return whether a copy fills the same room in two frames."""
        a, b = self.body(copy, one), self.body(copy, other)
        return a is not None and b is not None and float((a ^ b).volume()) > SAME_SHARE * float(a.volume())

    def _turn_deg(self, piece: Sequence[str], one: Frame, other: Frame, axis: Axis) -> float:
        """Return the turn about an axis that brings a piece's middle in one frame to that in the other."""
        middle = np.asarray(self.solids[part_of(piece[0])].trimesh.center_mass)
        a, b = (np.asarray(frame.point(middle)) - axis.at_mm for frame in (other, one))
        return math.degrees(
            math.atan2(float(np.cross(a, b) @ axis.way), float(a @ b - (a @ axis.way) * (b @ axis.way)))
        )
