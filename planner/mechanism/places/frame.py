"""A frame: where a copy of a part stands, as a turn about its mesh's origin and a shift, in mm as drawn."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from planner.finding import Vec3

Floats = NDArray[np.float64]
STILL_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class Frame:
    """A rigid motion from a mesh's own frame into the device's: ``turn @ p + shift_mm``.

    Parameters
    ----------
    turn : (3, 3) float
        A rotation; read-only.
    shift_mm : (3,) float
        Where the mesh's origin comes to stand; read-only.
    """

    turn: Floats
    shift_mm: Floats

    def __post_init__(self) -> None:
        for name in ("turn", "shift_mm"):
            kept = np.array(getattr(self, name), dtype=np.float64)
            kept.setflags(write=False)
            object.__setattr__(self, name, kept)

    def point(self, p: ArrayLike) -> Vec3:
        """Return where a point of the mesh stands in the device."""
        x, y, z = self.turn @ np.asarray(p, float) + self.shift_mm
        return float(x), float(y), float(z)

    def points(self, P: ArrayLike) -> Floats:
        """Return where points (n, 3) of the mesh stand in the device."""
        found: Floats = np.asarray(P, float) @ self.turn.T + self.shift_mm
        return found

    def direction(self, v: ArrayLike) -> Vec3:
        """Return a direction of the mesh as the device sees it."""
        x, y, z = self.turn @ np.asarray(v, float)
        return float(x), float(y), float(z)

    def inverse(self) -> Frame:
        """Return the motion from the device's frame back into the mesh's."""
        return Frame(turn=self.turn.T, shift_mm=-self.turn.T @ self.shift_mm)

    def after(self, other: Frame) -> Frame:
        """Return the motion that does ``other`` first, then this one."""
        return Frame(turn=self.turn @ other.turn, shift_mm=self.turn @ other.shift_mm + self.shift_mm)

    def turned_about(self, axis: ArrayLike, at_mm: ArrayLike, deg: float) -> Frame:
        """Return this frame turned about a line of the device by the right hand."""
        turn, at = rotation(axis, deg), np.asarray(at_mm, float)
        return Frame(turn=turn, shift_mm=at - turn @ at).after(self)

    def slid_along(self, axis: ArrayLike, mm: float) -> Frame:
        """Return this frame moved along a direction of the device."""
        way = np.asarray(axis, float)
        return Frame(turn=self.turn, shift_mm=self.shift_mm + way / np.linalg.norm(way) * mm)

    @property
    def still(self) -> bool:
        """Whether it leaves everything where it is, to a thousandth of a micrometre."""
        return bool(np.abs(self.matrix() - np.eye(3, 4)).max() < STILL_MM)

    def matrix(self) -> Floats:
        """Return it as three rows of four, as the solid modeller takes it."""
        return np.column_stack([self.turn, self.shift_mm])


def rotation(axis: ArrayLike, deg: float) -> Floats:
    """Return the matrix that turns about an axis by the right hand (Rodrigues' formula, from memory).

    >>> [round(float(x), 12) + 0.0 for x in rotation((0, 0, 2), 90.0) @ (1, 0, 0)]
    [0.0, 1.0, 0.0]
    """
    x, y, z = np.asarray(axis, float) / np.linalg.norm(np.asarray(axis, float))
    across = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    angle = math.radians(deg)
    found: Floats = np.eye(3) + math.sin(angle) * across + (1.0 - math.cos(angle)) * across @ across
    return found


STILL = Frame(turn=np.eye(3), shift_mm=np.zeros(3))
"""The mesh stands as it is drawn."""
