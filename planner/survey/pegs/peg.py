"""One peg of a part, as measured."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class Peg:
    """Round matter that stands out of a part, all as drawn.

    ``diameter_mm`` goes through the vertices, ``centre_mm`` is the middle of its axis; ``id`` is "p1", "p2" … in a
    fixed order within the part. ``coverage_deg`` is how far round it goes: less than 345 where flats or a keyway are
    cut into it, and ``flats_n`` how many these are. ``enters`` tells whether an end of it is free, so that it can go
    into a bore: a neck between two wider bodies has none.
    """

    id: str
    diameter_mm: float
    length_mm: float
    axis: Vec3
    centre_mm: Vec3
    coverage_deg: float = 360.0
    flats_n: int = 0
    enters: bool = True
