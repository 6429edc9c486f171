"""Stand a solid on the bed: turned so that a drawn direction faces down, and placed."""

from __future__ import annotations

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
    low, high = turned.bounds_mm
    return turned.moved((-float(low[0] + high[0]) / 2, -float(low[1] + high[1]) / 2, -float(low[2])))


def placed(solid: Solid, x_mm: float, y_mm: float, turn_deg: float) -> Solid:
    """Return the solid turned counter-clockwise about z, its outline's box then centred on (x, y)."""
    angle = np.radians(turn_deg)
    cos, sin = float(np.cos(angle)), float(np.sin(angle))
    turned = solid.transformed(np.array([[cos, -sin, 0.0], [sin, cos, 0.0], [0.0, 0.0, 1.0]]))
    low, high = turned.bounds_mm
    return turned.moved((x_mm - float(low[0] + high[0]) / 2, y_mm - float(low[1] + high[1]) / 2, 0.0))
