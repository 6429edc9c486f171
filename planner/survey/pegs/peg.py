"""One peg of a part, as measured."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class Peg:
    """Round matter that stands out of a part, all as drawn.

    ``diameter_mm`` goes through the vertices, ``centre_mm`` is the middle of its axis; ``id`` is "p1", "p2" … in a
    fixed order within the part.
    """

    id: str
    diameter_mm: float
    length_mm: float
    axis: Vec3
    centre_mm: Vec3
