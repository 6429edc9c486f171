"""The form: a value that somebody changes is no guess any more."""

from __future__ import annotations

from typing import Any

import pytest

from planner.desk.form import with_form

TEXT = """[job]
name = "hook"  # as on the drawing
[[part]]
name = "jaw"
count = 2  # GUESS: how many are built in?
handed = false  # GUESS: true where it is mirrored for the other side
"""


@pytest.mark.parametrize(
    ("fields", "line"),
    [
        ({"parts": {"jaw": {"count": 4}}}, "count = 4"),
        ({"parts": {"jaw": {"handed": True}}}, "handed = true"),
        ({"parts": {"jaw": {"count": 2}}}, "count = 2  # GUESS: how many are built in?"),
        ({"job": {"name": "claw"}}, 'name = "claw"  # as on the drawing'),
    ],
)
def test_the_mark_of_a_guess_goes_with_the_guess(fields: dict[str, Any], line: str) -> None:
    """A changed value loses its mark; one that stays keeps it, and so does every other comment and line."""
    before, after = TEXT.splitlines(), with_form(TEXT, fields).splitlines()
    assert line in after
    assert sum(a != b for a, b in zip(before, after, strict=True)) == (line not in before)


@pytest.mark.parametrize(
    ("fields", "left"),
    [
        ({"parts": {"jaw": {"count": 4}}}, 'guessed = ["handed"]'),
        ({"parts": {"jaw": {"count": 2}}}, 'guessed = ["count", "handed"]'),
        ({"parts": {"jaw": {"count": 4, "handed": True}}}, ""),
    ],
)
def test_a_changed_value_leaves_the_list_of_guesses(fields: dict[str, Any], left: str) -> None:
    """What somebody changed is stated; the list goes with its last key."""
    after = with_form(TEXT + 'guessed = ["count", "handed"]\n', fields)

    assert [line for line in after.splitlines() if line.startswith("guessed")] == ([left] if left else [])
