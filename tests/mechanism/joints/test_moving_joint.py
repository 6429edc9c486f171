"""Joints on one line: turning ones share a line, sliding ones a direction."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planner.mechanism.joints.moving_joint import MovingJoint, one_line

HINGE = MovingJoint(name="a to b", parts=("a", "b"), kind="turns", axis=(0.0, 0.0, 1.0), at_mm=(10.0, 0.0, 0.0))
SLANT_DEG = 3.0
SLANT = (math.sin(math.radians(SLANT_DEG)), 0.0, math.cos(math.radians(SLANT_DEG)))


@pytest.mark.parametrize(
    ("other", "one"),
    [
        (replace(HINGE, at_mm=(10.0, 0.0, 40.0)), True),  # farther along the same line
        (replace(HINGE, axis=(0.0, 0.0, -1.0)), True),  # seen from the other end
        (replace(HINGE, at_mm=(10.4, 0.0, 0.0)), True),
        (replace(HINGE, at_mm=(10.6, 0.0, 0.0)), False),
        (replace(HINGE, axis=SLANT), False),
        (replace(HINGE, kind="slides"), False),
    ],
)
def test_two_hinges_are_one_where_their_lines_are(other: MovingJoint, one: bool) -> None:
    """Half a millimetre beside each other, and 2.5 degrees to each other, are one line; more is two."""
    assert one_line(HINGE, other) is one


def test_slides_need_the_same_direction_only_and_count_in_mm() -> None:
    """Where a slide's line lies does not matter: it moves bodies alike. Its values are mm, a hinge's degrees."""
    slide = replace(HINGE, kind="slides")

    assert one_line(slide, replace(slide, at_mm=(90.0, 5.0, 0.0)))
    assert (slide.unit, HINGE.unit) == ("mm", "deg")
