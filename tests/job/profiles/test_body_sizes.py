"""Sizes of bodies: they grow with age, and without an age the widest range holds."""

from __future__ import annotations

from planner.job.profiles.body_sizes import ADULT_YEARS, read_bodies


def test_the_range_without_an_age_holds_all_ages() -> None:
    """From the youngest child to adults: no stated age gives a smaller low or a larger high end."""
    for body in read_bodies().values():
        low, high = body.usual_mm(None)
        for age in (0.5, 2.0, 9.0, 15.0, float(ADULT_YEARS), 80.0):
            one = body.usual_mm(age)
            assert low <= one[0] < one[1] <= max(high, one[1])


def test_a_child_is_smaller_than_an_adult() -> None:
    """The 5th percentile at three lies below that of adults, for every dimension."""
    assert all(body.usual_mm(3.0)[0] < body.adult_mm[0] for body in read_bodies().values())
