"""The usable bed: margins on every side, zones cut out, a circle never larger than it is."""

from __future__ import annotations

import math

import pytest

from planner.job import Bed, usable_ground

ZONE = ((0.0, 0.0), (50.0, 0.0), (50.0, 20.0), (0.0, 20.0))


def test_a_rectangle_loses_its_margins() -> None:
    """200 x 100 less 5 mm all round is 190 x 90 (by hand)."""
    bed = Bed(shape="rectangle", size_mm=(200.0, 100.0), height_mm=100.0, margin_mm=5.0)

    assert usable_ground(bed).area == pytest.approx(190 * 90)


def test_a_zone_is_cut_out_unless_it_is_left_in() -> None:
    """45 x 15 mm of the zone lie inside the margins (by hand)."""
    bed = Bed(shape="rectangle", size_mm=(200.0, 100.0), height_mm=100.0, margin_mm=5.0, zones_mm=(ZONE,))

    assert usable_ground(bed).area == pytest.approx(190 * 90 - 45 * 15)
    assert usable_ground(bed, zones=False).area == pytest.approx(190 * 90)


def test_a_circle_is_inscribed() -> None:
    """The polygon lies inside the circle, and loses less than 0.1 % of its area."""
    bed = Bed(shape="circle", size_mm=(240.0, 240.0), height_mm=200.0, margin_mm=5.0)
    area = usable_ground(bed).area

    assert area < math.pi * 115.0**2
    assert area == pytest.approx(math.pi * 115.0**2, rel=1e-3)
