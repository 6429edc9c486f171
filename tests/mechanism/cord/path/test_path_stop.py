"""Stops of a path."""

from __future__ import annotations

from planner.mechanism.cord.path.path_stop import LineStop


def test_a_channel_run_through_from_its_other_mouth_is_the_same_channel() -> None:
    """Its points turn over, all else stays."""
    line = LineStop(copy="deck#2", line_mm=((0.0, 0.0, 0.0), (1.0, 2.0, 3.0)), bends_deg=40.0, said="deck#2:ch1")

    assert line.reversed().line_mm == line.line_mm[::-1]
    assert line.reversed().reversed() == line
