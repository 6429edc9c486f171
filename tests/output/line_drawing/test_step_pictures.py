"""A step's drawing: what is new is dark, what is there is light, the same each time."""

from __future__ import annotations

import pytest

from planner.output.line_drawing.copies_standing import Standing
from planner.output.line_drawing.step_pictures import DARK, HIGH_MM, PALE_INK, WIDE_MM, Shown, step_pictures
from planner.plan import Plan

STEPS = (
    Shown(name="joint: base, arm", parts=("base", "arm"), there=frozenset({"base", "arm"}), about="put on"),
    Shown(name="hardware: pin", parts=("base", "arm"), there=frozenset({"base", "arm"}), about="pin"),
    Shown(name="joint: lost", parts=("lost",), there=frozenset({"lost"}), about="nowhere"),
)


def test_new_is_dark_and_the_rest_light(hinge_plan: Plan, standing: Standing) -> None:
    """Both kinds of line and a dark filling are on each drawing; a step without places has none."""
    first, second, none = step_pictures(hinge_plan, standing, STEPS)
    for drawing in (first, second):
        assert drawing is not None
        assert any(shape.fill == DARK for shape in drawing.shapes)
        assert any(shape.ink_share == PALE_INK for shape in drawing.shapes)
        points = [point for shape in drawing.shapes for ring in shape.rings for point in ring]
        assert all(-0.1 <= x <= WIDE_MM + 0.1 and -0.1 <= y <= HIGH_MM + 0.1 for x, y in points)
    assert none is None


def test_the_same_steps_are_drawn_alike(hinge_plan: Plan, standing: Standing, monkeypatch: pytest.MonkeyPatch) -> None:
    """Drawn twice with nothing kept, they have the same lines."""
    monkeypatch.setenv("FITWRIGHT_CACHE", "off")
    assert step_pictures(hinge_plan, standing, STEPS) == step_pictures(hinge_plan, standing, STEPS)
