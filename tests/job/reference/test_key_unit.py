"""Units by the endings of names."""

from __future__ import annotations

import pytest

from planner.job.reference.key_unit import ENDINGS, unit_of


@pytest.mark.parametrize("ending", ENDINGS)
def test_no_ending_is_read_as_a_shorter_one(ending: str) -> None:
    """``flow_mm3_s`` is no seconds: each ending gives its own unit, alone and behind a name."""
    assert unit_of(ending) == unit_of(f"name_{ending}") == ENDINGS[ending]


@pytest.mark.parametrize("name", ["people", "things", "helms", "columns"])
def test_a_word_that_only_ends_in_the_letters_has_none(name: str) -> None:
    """``things`` ends in s, and ``columns`` too, but not in ``_s``."""
    assert unit_of(name) == ""
