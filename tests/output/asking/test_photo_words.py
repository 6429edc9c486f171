"""A length from a photo in words: its range and its parts, and when to take the photo again."""

from __future__ import annotations

from dataclasses import replace

from planner.output import photo_again, photo_json, photo_lines
from planner.photo import Length

LENGTH = Length(
    value_mm=60.0, low_mm=59.0, high_mm=61.0, tilt_deg=8.0, away_mm=1010.0, parts_mm={"points": 0.5, "height": 0.8}
)


def test_a_good_photo_is_told_with_its_range_and_what_makes_it() -> None:
    """60 mm, 59 to 61."""
    lines = photo_lines(LENGTH, 8, is_round=True)

    assert lines[0] == "Width of the limb: 60.0 mm, 59.0 to 61.0 mm."
    assert "points 0.5, height 0.8" in lines[1]
    assert photo_again(LENGTH) == ""
    assert photo_json(LENGTH, 8, is_round=False)["length_mm"] == {"value": 60.0, "low": 59.0, "high": 61.0}


def test_a_photo_that_will_not_do_says_what_to_do_better() -> None:
    """A wide range by its greatest part, a great tilt, a camera too near."""
    assert "height of the limb's middle" in photo_again(replace(LENGTH, low_mm=57.0, high_mm=63.0))
    assert "30°" in photo_again(replace(LENGTH, tilt_deg=30.0))
    assert "0.5 m" in photo_again(replace(LENGTH, away_mm=500.0))
