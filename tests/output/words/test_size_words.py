"""Sizes that work, in words: an open end is said as such, and an empty reach too."""

from __future__ import annotations

import pytest

from planner.output.words.size_words import interval_words, reach_words
from planner.size import Interval, Reach


def _interval(low: float | None, high: float | None) -> Interval:
    return Interval(low_percent=low, high_percent=high, low_cause=None, high_cause=None)


@pytest.mark.parametrize(
    ("ends", "words"),
    [
        ((80.0, 120.04), "80.0 to 120.0 %"),
        ((80.02, 120.09), "80.1 to 120.0 %"),
        ((80.02, 80.04), "80.020 to 80.040 %"),
        ((None, 120.0), "up to 120.0 %"),
        ((80.0, None), "80.0 % or more"),
        ((None, None), "any size"),
    ],
)
def test_each_end_is_said(ends: tuple[float | None, float | None], words: str) -> None:
    """Two ends, one end, or none."""
    assert interval_words(_interval(*ends)) == words


def test_percents_of_one_size_become_those_of_another() -> None:
    """50 to 100 % of a part drawn at 80 % are 40 to 80 % of the drawn size (by hand)."""
    reach = Reach(nearest=None, intervals=(_interval(50.0, 100.0), _interval(150.0, None)), causes=())

    assert reach_words(reach, 0.8) == "40.0 to 80.0 %, 120.0 % or more"
    assert reach_words(Reach(nearest=None, intervals=(), causes=())) == "no size"
