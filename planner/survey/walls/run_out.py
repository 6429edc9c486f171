"""A sharp edge at which a part ends, as measured."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class RunOut:
    """A sharp edge at which the part ends: its least inner angle, how long it is, and where.

    ``outward`` are the directions in which the faces at the edge look.
    """

    angle_deg: float
    length_mm: float
    at_mm: Vec3
    outward: tuple[Vec3, ...]
