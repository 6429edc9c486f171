"""Scales: percent and factor are one number told in two ways."""

from __future__ import annotations

import pytest

from planner.scale import DRAWN, Scale, axis_factors


@pytest.mark.parametrize("percent", [25.0, 100.0, 106.5, 400.0])
def test_percent_and_factor_are_one_number(percent: float) -> None:
    """From percent to factor and back nothing is lost, and larger scales compare as larger."""
    scale = Scale(percent)

    assert Scale.of_factor(scale.factor).percent == pytest.approx(percent)
    assert str(scale) == f"{percent:g} %"
    assert (scale > DRAWN) is (percent > 100.0)


def test_one_percent_scales_all_axes_alike_and_three_each_its_own() -> None:
    """112 % grows every axis by 1.12; three percents stand for x, y and z in this order."""
    assert axis_factors(112.0) == (1.12, 1.12, 1.12)
    assert axis_factors((50.0, 100.0, 200.0)) == (0.5, 1.0, 2.0)
