"""Times of work by hand: each has a range and a source."""

from __future__ import annotations

from dataclasses import fields

from planner.job.profiles.hands_on import read_hands_on
from planner.sourced import Sourced


def test_every_time_is_in_minutes_with_a_source() -> None:
    """All fields end in min, are above zero, and say where they come from."""
    found = read_hands_on()
    for field in fields(found):
        value = getattr(found, field.name)
        assert field.name.endswith("_min")
        assert isinstance(value, Sourced)
        assert value.value > 0
        assert value.source
