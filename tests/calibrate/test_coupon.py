"""The coupon: what is drawn is there, and it prints in half an hour."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from planner.calibrate import Coupon, coupon
from planner.calibrate.coupon import BAR_MM, BASE_HIGH_MM, BLOCK_MM, RISE_MM
from planner.job import read_material, read_printer, read_settings
from planner.layers import estimate_part
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


def test_the_length_breadth_and_height_are_as_drawn(made: Coupon) -> None:
    """They are the box."""
    sizes = {one.kind: one.drawn_mm for one in made.features}

    assert made.solid.size_mm[0] == pytest.approx(sizes["along-x"], abs=1e-6)
    assert made.solid.bounds_mm[1, 1] == pytest.approx(sizes["along-y"], abs=1e-6)
    assert made.solid.size_mm[2] == pytest.approx(sizes["height"], abs=1e-6)


@pytest.mark.parametrize(("line_mm", "bore_mm"), [(0.45, None), (0.45, 12.0), (0.8, 5.64), (0.3, 30.0)])
@pytest.mark.parametrize("share", [0.05, 0.5, 0.95])
def test_walls_pins_and_gaps_are_what_they_say(line_mm: float, bore_mm: float | None, share: float) -> None:
    """At the foot, half-way up and near the top: trimesh cuts every wall and pin whole, as thick as named.

    What stands on the shelf is a row along x: pins, walls, then blocks with the gaps between them.
    """
    made = coupon(line_mm, bore_mm)
    walls, gaps, pins = (
        sorted(one.drawn_mm for one in made.features if one.kind == kind) for kind in ("wall", "gap", "pin")
    )
    cut = made.solid.trimesh.section(plane_normal=(0, 0, 1), plane_origin=(0, 0, BASE_HIGH_MM + share * RISE_MM))
    assert cut is not None
    flat, _ = cut.to_2D(to_2D=np.eye(4))
    shelf = made.solid.bounds_mm[1, 1] - BAR_MM
    row = sorted((p for p in flat.polygons_full if shelf - 8.0 < p.bounds[1] < shelf), key=lambda p: p.bounds[0])
    row = [piece for piece in row if piece.bounds[3] < shelf]
    found = [(piece.bounds[2] - piece.bounds[0], piece.area) for piece in row]
    ends = [(one.bounds[2], other.bounds[0]) for one, other in pairwise(row[len(pins) + len(walls) :])]

    assert len(row) == len(pins) + len(walls) + len(gaps) + 1
    assert [wide for wide, _ in found[: len(pins)]] == pytest.approx(pins, abs=1e-6)
    assert [wide for wide, _ in found[len(pins) : len(pins) + len(walls)]] == pytest.approx(walls, abs=1e-6)
    assert all(area == pytest.approx(wide * BLOCK_MM, rel=1e-6) for wide, area in found[len(pins) :])
    assert [high - low for low, high in ends] == pytest.approx(gaps, abs=1e-6)


def test_the_survey_sees_the_thinnest_wall_and_no_thinner_one(made: Coupon) -> None:
    """The wall of 0.8 lines is its least, but for webs beside bores."""
    found = survey(made.solid)
    clear = found.walls.least_clear

    assert clear is not None
    assert clear.thickness_mm == pytest.approx(0.36, abs=1e-3)


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
