"""A surface comes apart at its edges, and at lips that are too round to be edges but too tight for padding."""

from __future__ import annotations

import math

import pytest

from planner.pattern.smooth_groups import smooth_groups
from tests.pattern.shells import bowl, half_shell
from tests.shapes import cuboid


def test_a_cuboid_has_six_pieces() -> None:
    """Six planes, none of them hollow."""
    groups = smooth_groups(cuboid(30, 20, 10))

    assert [round(one.area_mm2) for one in groups] == [600, 600, 300, 300, 200, 200]
    assert {one.hollow_ratio for one in groups} == {0.0}


@pytest.mark.parametrize("lips", [False, True])
def test_inside_and_outside_of_a_shell_are_apart(lips: bool) -> None:
    """Also where lips of 1.6 mm radius join them without an edge; the inside is hollow, π R L large (closed form)."""
    outside, inside = smooth_groups(half_shell(31, 3.2, 100, lips=lips))[:2]

    assert (outside.hollow_ratio, inside.hollow_ratio) == pytest.approx((0.0, 1.0), abs=1e-5)
    assert inside.area_mm2 == pytest.approx(math.pi * 31 * 100, rel=1e-3)
    assert inside.toward[2] < 0


@pytest.mark.parametrize("degrees", [12.0, 20.0, 30.0])
@pytest.mark.parametrize("n", [48, 96])
def test_the_rim_of_a_shallow_bowl_is_an_edge(degrees: float, n: int) -> None:
    """Its flat rim bends on the inside by the bowl's own angle, but the other way.

    Area 2 π R² (1 - cos α) (Archimedes), less what facets take: 2 π R times their sagitta; the rim has 1,700 mm² more.
    """
    inside = next(one for one in smooth_groups(bowl(90, 3, degrees, n)) if one.hollow_ratio > 0.5)

    assert inside.hollow_ratio == pytest.approx(1.0, abs=1e-3)
    assert inside.area_mm2 == pytest.approx(2 * math.pi * 8100 * (1 - math.cos(math.radians(degrees))), abs=180)
