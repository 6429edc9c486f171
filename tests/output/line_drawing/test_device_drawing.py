"""The device's picture: a colour a plate, a number a part."""

from __future__ import annotations

from planner.output.line_drawing.copies_standing import Standing
from planner.output.line_drawing.device_drawing import HIGH_MM, WIDE_MM, device_drawing


def test_parts_have_their_colour_and_their_number(standing: Standing) -> None:
    """Each colour is a filling, each number stands on the paper, none twice."""
    drawing = device_drawing(standing, {"base": "#123456", "arm": "#abcdef"}, {"base": 1, "arm": 2}, "hinge")
    assert {shape.hue for shape in drawing.shapes if shape.hue} == {"#123456", "#abcdef"}
    assert sorted(label.text for label in drawing.labels) == ["1", "2"]
    assert all(0 < label.at[0] < WIDE_MM and 0 < label.at[1] < HIGH_MM for label in drawing.labels)
