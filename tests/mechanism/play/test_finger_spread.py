"""Fingers at contact."""

from __future__ import annotations

import pytest

from planner.mechanism.play.finger_spread import Finger, knot_words, spread_of


def test_the_finger_ahead_gets_the_longer_cord() -> None:
    """12 and 14.5 mm of cord to contact at 4 mm of tip for 1 mm: the second tip is 10 mm away, the first waits 2.5 mm."""
    fingers = [Finger(name="jaw", takes_mm=12.0, tip_ratio=4.0), Finger(name="jaw#2", takes_mm=14.5, tip_ratio=4.0)]
    found = spread_of(fingers)

    assert found.first == "jaw"
    assert found.spread_mm == pytest.approx(10.0)
    assert found.longer_mm == pytest.approx((2.5, 0.0))
    assert knot_words(fingers, found) == "move the knot of jaw so that its cord is 2.5 mm longer"


def test_fingers_that_are_alike_touch_together() -> None:
    """No spread, no knot to move."""
    fingers = [Finger(name="jaw", takes_mm=12.0, tip_ratio=4.0), Finger(name="jaw#2", takes_mm=12.2, tip_ratio=4.0)]

    assert spread_of(fingers[:1]).spread_mm == 0.0
    assert knot_words(fingers, spread_of(fingers)) == ""
