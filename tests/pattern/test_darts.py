"""Darts make a bowl lie flat: the leaves stretch less, and what opens at the rim is what the bowl lacks."""

from __future__ import annotations

import math

import pytest

from planner.pattern.darts import DEEP_SHARE, darted
from planner.pattern.least_stretch import least_stretch, stretch
from tests.pattern.surfaces import cap


@pytest.mark.parametrize("degrees", [40.0, 60.0])
def test_darts_open_as_far_as_the_rim_of_a_cap_is_short(degrees: float) -> None:
    """A disc with the cap's slant R α for radius has a rim of 2 π R α, the cap one of 2 π R sin α (closed forms).

    Twelve darts down to 85 % of the way open by the difference, less what the hub and the stretch that is left take.
    """
    a = math.radians(degrees)
    whole = next(one for one in darted(cap(40, degrees, 12)) if len(one.sides) == 12)
    flat = least_stretch(whole.patch)
    opens = sum(math.dist(flat[left[0]], flat[right[0]]) for left, right in whole.sides)
    lacks = 2 * math.pi * 40 * (a - math.sin(a))

    assert 0.8 * lacks < opens < lacks
    assert stretch(whole.patch, flat).turned_over_n == 0


def test_more_darts_leave_less_stretch_and_both_sides_are_one_line_on_the_surface() -> None:
    """A cap of 60° goes from 15 % to under 3 %; vertices at both sides lie on each other, from the rim to the tip."""
    bare = cap(40, 60.0, 8)
    every = list(darted(bare))
    left = [stretch(one.patch, least_stretch(one.patch)).most_percent for one in every]

    assert left[0] < stretch(bare, least_stretch(bare)).most_percent
    assert left[-1] < left[0]
    assert min(left) < 3.0
    for one in every:
        assert len(one.patch.loops) == 1
        for here, there in one.sides:
            points = one.patch.vertices_mm
            assert points[here] == pytest.approx(points[there])
            assert here[-1] == there[-1]
            assert here[0] != there[0]
            assert math.dist(points[here[0]], (0, 0, -40)) > (1 - DEEP_SHARE) * 40
