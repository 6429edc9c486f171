"""Copies stand where the mechanism, the drawing or the job puts them."""

from __future__ import annotations

import pytest

from planner.output.line_drawing.copies_standing import Standing, standing_of
from planner.plan import Plan
from tests.output.conftest import MakePlan


def test_parts_drawn_in_place_stand_as_drawn(hinge_plan: Plan, standing: Standing) -> None:
    """Taken from the bed to its place, each part has the box of its mesh."""
    for part in hinge_plan.parts:
        points = standing.bodies[part.part.name].points_mm
        assert points.min(axis=0) == pytest.approx(part.sized.bounds_mm[0], abs=1e-6)
        assert points.max(axis=0) == pytest.approx(part.sized.bounds_mm[1], abs=1e-6)
    assert (standing.why, standing.missing) == ("", ())


def test_parts_that_nothing_places_are_not_pictured(make_plan_of: MakePlan) -> None:
    """Two boxes that nothing joins: the reason is told instead of a heap at the origin."""
    plan = make_plan_of('[[part]]\nname = "b"\nmesh = "a.stl"\nduty = "cover"\n')
    found = standing_of(plan)
    assert found.bodies == {}
    assert "Nothing says how the parts stand" in found.why
