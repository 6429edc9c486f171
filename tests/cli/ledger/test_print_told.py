"""A print as an event tells it."""

from __future__ import annotations

from typing import Any

import pytest

from planner.cli.ledger.print_told import spools_told, took_s
from planner.errors import CommandError


@pytest.mark.parametrize(
    ("spools", "told"),
    [
        (None, {"fed": []}),
        (["S-1"], {"spool": "S-1"}),
        (["S-1:30.5"], {"fed": [{"spool": "S-1", "used_g": 30.5}]}),
        (["S-1", "S-2"], {"fed": [{"spool": "S-1"}, {"spool": "S-2"}]}),
        (["S-1:30,5", "green:left"], {"fed": [{"spool": "S-1", "used_g": 30.5}, {"spool": "green:left"}]}),
    ],
)
def test_spools_are_told_with_their_grams_or_without(spools: list[str] | None, told: dict[str, Any]) -> None:
    """What follows a colon and is a number are grams; a spool's id may hold a colon."""
    assert spools_told(spools) == told


def test_grams_and_hours_that_cannot_be_are_refused() -> None:
    """Less than nothing, no number, no time; nothing told is nothing."""
    for wrong in ("S-1:-3", "S-1:nan", "S-1:1e9"):
        with pytest.raises(CommandError, match="tells no grams"):
            spools_told([wrong])
    with pytest.raises(CommandError, match="--took"):
        took_s("soon")
    assert (took_s("2h30"), took_s("")) == (9000.0, None)
