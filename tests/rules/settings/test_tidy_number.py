"""Tidy numbers keep the limit that they were rounded from."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.rules.settings.tidy_number import STEPS, step_of, tidy_down, tidy_up

KEYS = ("layer_height_mm", "infill_speed_mm_s", "nozzle_c", "infill_percent", "least_layer_s", "contours_n")


@given(value=st.floats(0.0, 500.0), key=st.sampled_from(KEYS))
def test_a_tidy_number_lies_within_a_step_on_the_side_that_was_asked_for(value: float, key: str) -> None:
    """Down is never above, up never below, and neither a whole step away."""
    step = step_of(key)

    assert tidy_down(value, step) <= value + 1e-8 * step
    assert tidy_up(value, step) >= value - 1e-8 * step
    assert tidy_up(value, step) - tidy_down(value, step) <= step * (1 + 1e-6)


@pytest.mark.parametrize("value", [0.08, 0.32, 135.0, 260.0])
def test_a_tidy_number_stays_as_it_is(value: float) -> None:
    """Limits that a person would write are not moved by what binary numbers make of them."""
    assert tidy_down(value, 0.01) == value == tidy_up(value, 0.01)


def test_every_unit_has_a_step() -> None:
    """The longer ending is tried first, so that a speed is not taken for a time."""
    assert [step_of(f"x{end}") for end, _ in STEPS] == [step for _, step in STEPS]
