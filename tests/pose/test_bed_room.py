"""Room on a bed: the largest scale by its sides and its height, and the first bed that has room."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.job import Bed, Printer
from planner.pose.bed_room import bed_for, bed_room
from planner.survey import hull_points
from tests.shapes import cuboid

DOWN = (0.0, 0.0, -1.0)
BED = Bed(shape="rectangle", size_mm=(210.0, 110.0), height_mm=150.0, margin_mm=5.0)


def test_sides_and_height_bound_the_scale() -> None:
    """A block of 100 x 50 x 50 on 200 x 100 x 150: twice by its sides, three times by its height (by hand)."""
    room = bed_room(hull_points(cuboid(100, 50, 50).vertices_mm), DOWN, BED)

    assert room.flat_most == pytest.approx(2.0, rel=1e-3)
    assert room.tall_most == pytest.approx(3.0)
    assert room.most == room.flat_most


def test_the_first_bed_with_room_is_taken(printer: Printer) -> None:
    """Too long for the first, it goes on the second; on none, the first is named."""
    large = replace(printer, bed=Bed(shape="rectangle", size_mm=(510.0, 510.0), height_mm=400.0, margin_mm=5.0))
    small = replace(printer, bed=BED)
    hull = hull_points(cuboid(300, 50, 50).vertices_mm)

    assert bed_for(hull, (DOWN,), (small, large)) == large.bed
    assert bed_for(hull, (DOWN,), (small,)) == BED
