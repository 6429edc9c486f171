"""Two numbers in one sentence: never the same digits for different numbers."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.digits import equal_words, percent_or_less, percent_or_more, told_apart

LENGTHS = st.floats(min_value=0.1, max_value=300.0)


@given(measured=LENGTHS, apart=st.floats(min_value=-1.0, max_value=1.0))
def test_different_numbers_never_print_alike(measured: float, apart: float) -> None:
    """Numbers that differ by more than a rule's slack of a billionth differ in what is printed, and in its order."""
    limit = measured + apart
    one, other = told_apart(measured, limit)

    if abs(measured - limit) > 2e-9:
        assert one != other
        assert (float(one) < float(other)) == (measured < limit)
    assert len(one.partition(".")[2]) == len(other.partition(".")[2])


@pytest.mark.parametrize(
    ("measured", "limit", "told"),
    [
        (3.405, 3.40, ("3.405", "3.400")),
        (3.0964, 3.10, ("3.096", "3.100")),
        (2.94, 3.10, ("2.94", "3.10")),
        (3.4, 3.4, ("3.40", "3.40")),
    ],
)
def test_as_many_digits_as_the_difference_needs(measured: float, limit: float, told: tuple[str, str]) -> None:
    """Once 3.405 was printed as "3.40, 3.40 or less", and 3.096 as "drill 3.10 to 3.10"."""
    assert told_apart(measured, limit) == told


def test_a_difference_that_nobody_can_drill_is_called_so() -> None:
    """Under 0.05 mm two lengths are equal to a hand drill and a printer; at 0.05 mm and over they are not."""
    assert "equal within" in equal_words(3.06, 3.10)
    assert equal_words(3.04, 3.10) == ""


@given(percent=st.floats(min_value=5.0, max_value=400.0))
def test_a_printed_percent_is_enough(percent: float) -> None:
    """What is printed as "or more" reaches the size at which it works; "or less" does not pass it."""
    assert float(percent_or_more(percent)) >= percent - 1e-6
    assert float(percent_or_more(percent)) < percent + 0.1 + 1e-6
    assert float(percent_or_less(percent)) <= percent + 1e-6
    assert float(percent_or_less(percent)) > percent - 0.1 - 1e-6
