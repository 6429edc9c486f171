"""Lengths of twist drills against a table that others print."""

from __future__ import annotations

from itertools import pairwise

import pytest

from planner.rules.fit.bores.drill_lengths import DRILLS, drill_length


@pytest.mark.parametrize(
    ("diameter", "whole", "flutes"),
    [(2.0, 49, 24), (3.0, 61, 33), (4.0, 75, 43), (5.0, 86, 52), (6.0, 93, 57), (8.0, 117, 75), (10.0, 133, 87)],
)
def test_jobber_drills_are_as_long_as_the_standard_says(diameter: float, whole: float, flutes: float) -> None:
    """ISO 235 and DIN 338 give the same lengths for the sizes of a common set; from memory."""
    assert (drill_length(diameter).whole_mm, drill_length(diameter).flutes_mm) == (whole, flutes)


def test_a_wider_drill_is_longer_and_a_long_one_longer_still() -> None:
    """Every column grows with the diameter, and each row with its series."""
    assert all(a.flutes_mm <= b.flutes_mm and a.whole_mm < b.whole_mm for a, b in pairwise(DRILLS))
    assert all(a.long_flutes_mm < b.long_flutes_mm for a, b in pairwise(DRILLS))
    assert all(one.flutes_mm < one.long_flutes_mm for one in DRILLS)
