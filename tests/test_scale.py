"""Scales: percent for people, factors for lengths, and both ways without a remainder."""

from __future__ import annotations

import pytest

from planner.scale import DRAWN, Scale, axis_factors


def test_percent_and_factor_are_the_same_number_told_twice() -> None:
    """112 % is 1.12 both ways; the drawn size is 100 % and the factor 1."""
    assert Scale(112.0).factor == 1.12
    assert Scale.of_factor(1.12).percent == pytest.approx(112.0, abs=1e-12)
    assert Scale.of_factor(1.0) == DRAWN


def test_scales_are_ordered_by_size_and_told_without_spare_digits() -> None:
    """The smaller percent comes first; 100 and 106.5 are told as they are written."""
    assert sorted([Scale(120.0), DRAWN, Scale(106.5)]) == [DRAWN, Scale(106.5), Scale(120.0)]
    assert [str(DRAWN), str(Scale(106.5))] == ["100 %", "106.5 %"]


def test_one_percent_holds_for_all_axes_and_three_keep_their_order() -> None:
    """x, y and z as stated."""
    assert axis_factors(150.0) == (1.5, 1.5, 1.5)
    assert axis_factors((50.0, 100.0, 200.0)) == (0.5, 1.0, 2.0)
