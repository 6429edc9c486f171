"""Concave cylinders: one for each bore, what a slot has cut apart put together, and none on the outside."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mesh import Solid
from planner.survey.bores.cylinder import Cylinder
from planner.survey.bores.cylinders import cylinders_of
from planner.survey.bores.facets import facets_of
from tests.shapes import Manifold, bored_plate, cylinder, solid_of


def _found(solid: Solid) -> list[Cylinder]:
    """Return what is found, narrowest first."""
    return sorted(cylinders_of(solid, facets_of(solid)), key=lambda one: one.radius_mm)


def test_each_bore_of_a_plate_is_one_cylinder() -> None:
    """Two sizes at their places, 6 deep; the plate's own corners and outside are none."""
    found = _found(bored_plate(40, 30, 6, [(10, 15, 5.0, 32), (28, 15, 8.0, 48)]))

    assert [one.radius_mm for one in found] == pytest.approx([2.5, 4.0])
    assert [one.depth_mm for one in found] == pytest.approx([6.0, 6.0])
    assert [one.centre[:2].tolist() for one in found] == [pytest.approx([10, 15]), pytest.approx([28, 15])]


def test_a_keyway_leaves_one_bore() -> None:
    """A groove of 2 mm through both sides of a bore of 10 cuts its wall in two arcs: they are put together.

    Left of the turn is 360 - 2 x 2 asin(1 / 5) = 313.8 degrees (geometry), to within the facets at the groove.
    """
    keyed = Manifold.cube((30, 30, 8)) - cylinder(10, 20, 96).translate((15, 15, -5))
    keyed -= Manifold.cube((14, 2, 20), center=True).translate((15, 15, 4))
    (found,) = _found(solid_of(keyed))

    assert found.radius_mm == pytest.approx(5.0, abs=1e-3)
    assert found.coverage_deg == pytest.approx(360 - 4 * np.degrees(np.arcsin(1 / 5)), abs=2 * 360 / 96)


def test_a_rod_has_none() -> None:
    """What bends outward only is no bore."""
    assert _found(solid_of(cylinder(10, 20, 48))) == []


def test_arcs_of_other_lengths_are_put_together() -> None:
    """A bore across a step of 8 and 4 mm, cut apart by a groove along the step: one bore as long as its longer side."""
    stepped = Manifold.cube((30, 30, 4)) + Manifold.cube((15, 30, 8)) - cylinder(10, 20, 96).translate((15, 15, -5))
    stepped -= Manifold.cube((2, 14, 20), center=True).translate((15, 15, 4))
    (found,) = _found(solid_of(stepped))

    assert found.radius_mm == pytest.approx(5.0, abs=1e-3)
    assert found.depth_mm == pytest.approx(8.0, abs=2e-3)
