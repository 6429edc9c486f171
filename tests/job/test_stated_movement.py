"""Copies of parts have one name each, whichever way it is written."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from planner.job import copy_name, number_of, part_of


@given(part=st.sampled_from(["jaw", "link-2", "a#b", "finger 1"]), number=st.integers(1, 40))
def test_a_copy_is_of_its_part_and_has_its_number(part: str, number: int) -> None:
    """What names a copy can be read back."""
    copy = copy_name(part, number)
    assert (part_of(copy), number_of(copy)) == (part, number)


def test_the_first_copy_needs_no_number() -> None:
    """``jaw#1`` is ``jaw``."""
    assert copy_name(part_of("jaw#1"), number_of("jaw#1")) == "jaw"
