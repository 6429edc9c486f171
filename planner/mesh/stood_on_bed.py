"""Stand a solid on the bed: turned so that a drawn direction faces down, and placed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mesh.solid import Solid

Floats = NDArray[np.float64]


def turning(down: Vec3) -> Floats:
    """Return the rotation (3, 3) that brings a drawn direction to (0, 0, -1) by the shortest turn (Rodrigues)."""
    start = np.asarray(down, dtype=float) / np.linalg.norm(down)
    goal = np.array([0.0, 0.0, -1.0])
    cos = float(start @ goal)
    x, y, z = np.cross(start, goal)
    sin_squared = float(x * x + y * y + z * z)
    if cos < 0.0 and sin_squared < 1e-24:  # straight up: half a turn about x
        return np.diag([1.0, -1.0, -1.0])
    # The two forms are equal, but 1 + cos loses its digits near straight up, where the cross product keeps them.
    factor = 1.0 / (1.0 + cos) if cos > 0.0 else (1.0 - cos) / sin_squared
    skew = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    rotation: Floats = np.eye(3) + skew + factor * (skew @ skew)
    return rotation


def posed(solid: Solid, down: Vec3) -> Solid:
    """Return the solid with ``down`` facing the bed, standing on z = 0, its box centred on x = y = 0."""
    turned = solid.transformed(turning(down))
    return turned.moved(_onto_bed(turned))


def posed_points(points_mm: Floats, solid: Solid, down: Vec3) -> Floats:
    """Return where points (n, 3) of a solid's frame lie once it is :func:`posed`."""
    turn = turning(down)
    moved: Floats = points_mm @ turn.T + np.asarray(_onto_bed(solid.transformed(turn)))
    return moved


def _onto_bed(turned: Solid) -> Vec3:
    """Return the move that brings the box of a solid onto z = 0 and over the origin."""
    low, high = turned.bounds_mm
    return -float(low[0] + high[0]) / 2, -float(low[1] + high[1]) / 2, -float(low[2])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Copy:
    """One copy of a solid: turned by ``turn`` (3, 3), then moved by ``move_mm`` (3,)."""

    name: str
    solid: Solid
    turn: Floats
    move_mm: Floats

    @property
    def at_place(self) -> Solid:
        """The solid where the copy lies."""
        x, y, z = (float(value) for value in self.move_mm)
        return self.solid.transformed(self.turn).moved((x, y, z))


def copy_at(name: str, solid: Solid, x_mm: float, y_mm: float, turn_deg: float) -> Copy:
    """Return a copy turned counter-clockwise about z, its outline's box then centred on (x, y)."""
    angle = np.radians(turn_deg)
    cos, sin = float(np.cos(angle)), float(np.sin(angle))
    turn = np.array([[cos, -sin, 0.0], [sin, cos, 0.0], [0.0, 0.0, 1.0]])
    low, high = solid.transformed(turn).bounds_mm
    move = np.array([x_mm - (low[0] + high[0]) / 2, y_mm - (low[1] + high[1]) / 2, 0.0])
    return Copy(name=name, solid=solid, turn=turn, move_mm=move)


def placed(solid: Solid, x_mm: float, y_mm: float, turn_deg: float) -> Solid:
    """Return the solid turned counter-clockwise about z, its outline's box then centred on (x, y)."""
    return copy_at(solid.name, solid, x_mm, y_mm, turn_deg).at_place
