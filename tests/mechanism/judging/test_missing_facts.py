"""A hold of movement says what to write, and which words it goes by stand in the room's own sentences."""

from __future__ import annotations

from pathlib import Path

import pytest

import planner.mechanism
from planner.mechanism.judging.missing_facts import CURES, STATE, cure_of

SOURCE = "".join(path.read_text("utf-8") for path in Path(planner.mechanism.__path__[0]).rglob("*.py"))


@pytest.mark.parametrize("words", CURES)
def test_every_reason_is_one_that_the_room_gives(words: str) -> None:
    """The words stand in a sentence elsewhere in the room, not only in the table: else their cure is never shown."""
    assert SOURCE.count(words) >= 2
    assert cure_of(f"arm to rod: {words} x") == CURES[words]


def test_anything_else_has_the_general_one() -> None:
    """Nothing is left without a remedy."""
    assert cure_of("something new") == STATE
