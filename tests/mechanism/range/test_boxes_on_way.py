"""Courses: where boxes leave open that bodies come near, against bodies placed at many values and measured."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mechanism import STILL, Frame
from planner.mechanism.range.boxes_on_way import box_of, course_of
from planner.mechanism.range.sweep import first_meeting
from planner.mechanism.range.two_bodies import Meeting
from tests.shapes import Manifold

CUBE = Manifold.cube((4, 4, 4)).translate((30, 0, 0))


def _turn(value: float) -> list[Frame]:
    """Return a group that stands and one that turns about z."""
    return [STILL, STILL.turned_about((0.0, 0.0, 1.0), (0.0, 0.0, 0.0), value)]


@pytest.mark.parametrize("clear", [0.0, 2.0])
@pytest.mark.parametrize("seed", range(3))
def test_no_place_where_bodies_are_near_is_left_out(seed: int, clear: float) -> None:
    """Wherever the solid modeller finds less than the clearance between them, a span holds the place."""
    rng = np.random.default_rng(seed)
    wall = Manifold.cube((5, 3, 4)).translate((*rng.uniform(-28, 28, 2), 1.0))
    spans = course_of(_turn, -180.0, 180.0).spans((0, 1), box_of(wall), box_of(CUBE), clear)

    for value in np.linspace(-180.0, 180.0, 721):
        if float(wall.min_gap(CUBE.transform(_turn(float(value))[1].matrix()), 5.0)) < clear + 1e-9:
            assert any(low <= value <= high for low, high in spans), value


def test_what_stays_apart_is_open_nowhere_and_measured_nowhere(monkeypatch: pytest.MonkeyPatch) -> None:
    """A block 20 mm beyond the reach of what turns is told by its box: no gap is measured and nothing is met."""
    asked: list[float] = []
    monkeypatch.setattr(Meeting, "gap_mm", lambda *_: asked.append(0.0))
    monkeypatch.setattr(Meeting, "overlap", lambda *_: asked.append(0.0))
    far = Manifold.cube((5, 5, 5)).translate((60, 0, 0))
    course = course_of(_turn, -360.0, 360.0)

    assert course.spans((0, 1), box_of(far), box_of(CUBE), 0.5) == []
    meeting = Meeting(names=("block", "arm"), groups=(0, 1), one=far, other=CUBE, search_mm=0.5)
    assert first_meeting(meeting, _turn, (0.0, 360.0), 0.5, course) is None
    assert asked == []
