"""A traced number: sums and comparisons are remembered, and what cannot be followed is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.output.page.traced_number import LostError, printed, traced, value_of


@given(st.floats(0.2, 3.0), st.floats(0.2, 3.0))
def test_a_sum_is_followed_to_any_scale(first: float, other: float) -> None:
    """What was noted at one scale gives the exact number at another."""
    fields, _ = traced(lambda s: {"x": (2.0 * s + 1.0) / s - s**2}, first)

    assert printed(fields["x"], other) == (2.0 * other + 1.0) / other - other**2


def test_a_comparison_is_noted_with_its_outcome() -> None:
    """Below its turn the guard holds, beyond it does not."""
    fields, guards = traced(lambda s: {"fits": bool(3.0 * s < 4.0)}, 1.0)

    assert fields["fits"] is True
    assert [guard.holds(1.3) for guard in guards] == [True]
    assert [guard.holds(1.4) for guard in guards] == [False]


def test_what_cannot_be_followed_is_refused() -> None:
    """C code would read past the sum: it is an error, never a wrong number."""
    with pytest.raises(LostError):
        traced(lambda s: {"x": math.sqrt(s)}, 1.0)


def test_postfix_sums_are_read_as_written() -> None:
    """2 s 3 * - is 2 - 3 s (by hand)."""
    assert value_of((2.0, "s", 3.0, "*", "-"), 0.5) == pytest.approx(0.5)
