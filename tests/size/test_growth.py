"""Growth: months until a dimension may have grown by some millimetres, by hand from the published rows."""

from __future__ import annotations

import pytest

from planner.job import read_bodies
from planner.size.growth import months_to_grow


def test_the_span_is_that_of_the_published_rows() -> None:
    """Elbow to fingertip, 5th and 95th percentile 313 and 377 mm at 8, 329 and 399 at 9 (Snyder et al. 1977).

    The fast end: 22 mm a year, 1.5 times as fast, 8 mm after 2.9 months; the slow end: 16 mm a year, by 1.5 slower, 9 months.
    """
    assert months_to_grow(read_bodies()["elbow-to-fingertip"], 8.5, 8.0) == (3.0, 9.0)


def test_a_whole_year_of_age_may_be_any_day_of_it() -> None:
    """Who is 8 may be 9 tomorrow: the span holds those of both ends of the year."""
    body = read_bodies()["elbow-to-fingertip"]
    low, high = months_to_grow(body, 8, 8.0)
    ends = [months_to_grow(body, age, 8.0) for age in (8.001, 8.999)]

    assert low == pytest.approx(min(end[0] or 0.0 for end in ends), abs=0.5)
    assert high == pytest.approx(max(end[1] or 0.0 for end in ends), abs=0.5)


@pytest.mark.parametrize("name", sorted(read_bodies()))
@pytest.mark.parametrize("age", [2, 7, 13, 17])
def test_more_room_lasts_longer(name: str, age: int) -> None:
    """For every table and age the ends grow with the room and keep their order; beyond the tables nothing is invented."""
    body, before = read_bodies()[name], (0.0, 0.0)
    for room_mm in (0.5, 2.0, 6.0, 20.0, 400.0):
        low, high = months_to_grow(body, age, room_mm)
        assert (low or 1e9) >= before[0]
        assert (high or 1e9) >= max(before[1], low or 0.0)
        before = (low or 1e9, high or 1e9)
    assert before == (1e9, 1e9)  # nobody grows by 400 mm there
