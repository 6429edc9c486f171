"""The coupon: what is drawn is there, and it prints in half an hour."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from planner.calibrate import Coupon, coupon
from planner.job import read_material, read_printer, read_settings
from planner.layers import estimate_part
from planner.rules.fit.wall_thin import below_at
from planner.survey import survey

HERE = Path()


@pytest.fixture(name="made", scope="module")
def _made() -> Coupon:
    return coupon(0.45)


def test_the_survey_finds_every_bore_that_is_drawn(made: Coupon) -> None:
    """Each bore, its axis upright or level, with its inscribed diameter d cos(pi/64) (geometry), all through."""
    found = survey(made.solid)
    for kind, axis in (("upright", 2), ("lying", 1)):
        meant = sorted(one.inside_mm for one in made.features if one.kind == kind)
        bores = [bore for bore in found.bores if abs(bore.axis[axis]) > 0.99]
        assert sorted(bore.diameter_mm for bore in bores) == pytest.approx(meant, abs=1e-3)
        assert all(bore.through for bore in bores)
    assert found.sound


def test_the_thinnest_wall_and_the_size_are_as_drawn(made: Coupon) -> None:
    """The wall of 0.8 lines is seen with its area, only its corner is thinner; length, breadth and height are the box."""
    found = survey(made.solid)
    sizes = {one.kind: one.drawn_mm for one in made.features}

    wall = next(place for place in found.walls.places if 20.9 < place.at_mm[0] < 21.4)
    under, over = below_at(wall.below, 0.33), below_at(wall.below, 0.42)
    assert under is not None
    assert over is not None
    assert under.area_mm2 < 1.5
    assert over.area_mm2 > 15.0
    assert found.size_mm[0] == pytest.approx(sizes["along-x"], abs=1e-6)
    assert found.size_mm[2] == pytest.approx(sizes["height"], abs=1e-6)
    assert made.solid.bounds_mm[1, 1] == pytest.approx(sizes["along-y"], abs=1e-6)


def test_bridges_and_overhangs_are_there_as_drawn(made: Coupon) -> None:
    """The layer model bridges spans up to 6 mm and would hold up the rest; wedges reach 4 tan(lean) out (geometry)."""
    took = estimate_part(
        made.solid,
        settings=read_settings("standard-0.4", HERE),
        printer=read_printer("bench-220", HERE),
        material=read_material("petg", HERE),
    )
    leans = {one.name: one.drawn_mm for one in made.features if one.kind == "overhang"}

    assert leans == {f"overhang {a} deg": pytest.approx(4 * math.tan(math.radians(a))) for a in (40, 50, 60)}
    assert [one.drawn_mm for one in made.features if one.kind == "bridge"] == [4, 6, 8, 10]
    assert took.bridge_span_mm == pytest.approx(6.0, abs=0.1)
    assert took.needs_support


def test_it_prints_in_half_an_hour_without_support(made: Coupon) -> None:
    """By our own estimate on the middle printer, heat-up not counted."""
    took = estimate_part(
        made.solid,
        settings=replace(read_settings("standard-0.4", HERE), support="none"),
        printer=read_printer("bench-220", HERE),
        material=read_material("petg", HERE),
    )

    assert took.duration_s < 1800
    assert took.support_mm3 == 0.0


@pytest.mark.parametrize("bore_mm", [1.0, 5.64, 12.0, 30.0])
def test_a_bore_of_the_job_stands_on_it_both_ways(bore_mm: float) -> None:
    """Whatever its size, the mesh stays sound and both bores are found."""
    made = coupon(0.45, bore_mm)
    found = survey(made.solid)
    inside = bore_mm * math.cos(math.pi / 64)

    assert found.sound
    assert sum(abs(bore.diameter_mm - inside) < 2e-3 for bore in found.bores) == 2
