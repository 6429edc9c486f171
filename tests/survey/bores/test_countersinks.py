"""Countersinks: the wide end of a cone at a bore's mouth, and nothing where there is none."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from planner.survey.bores.countersinks import sink_mm
from planner.survey.walls.solid_for_walls import shape_of
from tests.shapes import Manifold, cylinder, solid_of

BORE: Any = SimpleNamespace(axis=(0.0, 0.0, 1.0), centre_mm=(0.0, 0.0, 5.0), drawn_diameter_mm=6.0, depth_mm=10.0)
"""A bore of 6 mm from z = 0 to 10."""


def _plate(*cuts: Manifold, high: float = 10.0) -> Manifold:
    """Return a plate with the bore and more cut out."""
    body = Manifold.cube((40, 40, high)).translate((-20, -20, 0)) - cylinder(6.0, 40.0, 48).translate((0, 0, -10))
    for cut in cuts:
        body -= cut
    return body


def _cone(low: float, wide: float, deep: float, at: float) -> Manifold:
    """Return a cone that widens upwards from the bore."""
    return Manifold.cylinder(deep, low / 2, wide / 2, 48).translate((0, 0, at))


def test_a_cone_at_the_mouth_is_told_by_its_wide_end() -> None:
    """A countersink of 90 degrees from 6 to 12 mm above the bore: 12 mm; below it, mirrored, too."""
    above = _plate(_cone(6.0, 12.0, 3.0, 10.0), high=13.0)

    assert sink_mm(shape_of(solid_of(above)), BORE) == pytest.approx(12.0, rel=1e-6)
    below = above.mirror((0, 0, 1)).translate((0, 0, 10))
    assert sink_mm(shape_of(solid_of(below)), BORE) == pytest.approx(12.0, rel=1e-6)


def test_of_two_cones_the_wider_is_told() -> None:
    """12 mm above, 10 below."""
    body = _plate(_cone(6.0, 12.0, 3.0, 10.0), high=13.0)
    lower = Manifold.cube((40, 40, 2)).translate((-20, -20, -2)) - Manifold.cylinder(2.0, 5.0, 3.0, 48).translate(
        (0, 0, -2)
    )

    assert sink_mm(shape_of(solid_of(body + lower)), BORE) == pytest.approx(12.0, rel=1e-6)


@pytest.mark.parametrize(
    "body",
    [
        _plate(),
        _plate(cylinder(12.0, 3.0, 48).translate((0, 0, 10)), high=13.0),
        _plate(_cone(6.0, 6.2, 3.0, 10.0), high=13.0),
    ],
    ids=["plain bore", "flat counterbore", "hardly wider"],
)
def test_what_is_no_cone_is_no_countersink(body: Manifold) -> None:
    """A plain mouth, a step at right angles, and a taper of a few hundredths: none."""
    assert sink_mm(shape_of(solid_of(body)), BORE) is None
