"""Grams of a print shared out over the spools that fed it."""

from __future__ import annotations

from typing import Any

import pytest
from sqlalchemy.engine import Engine

from planner.errors import LedgerError
from planner.ledger import recalled, shown, told
from tests.ledger.telling import DAY, chapter, tell


def _chapter(left_g: float | None = 10.0) -> list[Any]:
    """Return a chapter with a second spool, almost empty, of another lot."""
    return [*chapter(), tell("spool", "S-0", material="petg", colour="green", lot="L-8", left_g=left_g)]


@pytest.mark.parametrize(
    ("body", "left"),
    [
        ({"fed": [{"spool": "S-0"}, {"spool": "S-1"}]}, {"S-0": 0.0, "S-1": 470.0}),  # all of it, then the rest of 40 g
        ({"fed": [{"spool": "S-0", "used_g": 8.0}, {"spool": "S-1"}]}, {"S-0": 2.0, "S-1": 468.0}),
        ({"fed": [{"spool": "S-0"}, {"spool": "S-1"}], "used_g": 30.0}, {"S-0": 0.0, "S-1": 480.0}),
        (
            {"fed": [{"spool": "S-1", "used_g": 33.0}, {"spool": "S-0", "used_g": 5.0}]},
            {"S-0": 5.0, "S-1": 467.0},
        ),
    ],
)
def test_both_spools_lose_what_they_gave(ledger: Engine, body: dict[str, Any], left: dict[str, float]) -> None:
    """By hand, of a plate planned with 40 g; both lots are recalled with it."""
    told(ledger, [*_chapter(), tell("done", "R-07.1", **body)], DAY)

    assert {row["id"]: row["left_g"] for row in shown(ledger, "spools", DAY.date())} == left
    assert [(row["plate"], row["spool"]) for row in recalled(ledger, "L-8")] == [("R-07.1", "S-0")]
    assert [(row["plate"], row["spool"]) for row in recalled(ledger, "L-9")] == [("R-07.1", "S-1")]


@pytest.mark.parametrize(
    ("body", "left_g", "says"),
    [
        ({"fed": [{"spool": "S-0"}, {"spool": "S-0"}]}, 10.0, "told twice"),
        ({"fed": [{"spool": "S-0"}, {"spool": "S-7"}]}, 10.0, "no such spool"),
        ({"fed": [{"spool": "S-0"}, {"spool": "S-1"}]}, None, "had left"),
        ({"fed": [{"spool": "S-0", "used_g": 45.0}, {"spool": "S-1"}]}, 50.0, "gave 45.0 g already"),
        ({"fed": [{"spool": "S-0", "used_g": 5.0}, {"spool": "S-1", "used_g": 9.0}], "used_g": 30.0}, 10.0, "14.0 g"),
        ({"fed": [{"spool": "S-0", "used_g": 20.0}, {"spool": "S-1"}]}, 10.0, "has 10.0 g"),
    ],
)
def test_grams_that_cannot_be_are_refused(
    ledger: Engine, body: dict[str, Any], left_g: float | None, says: str
) -> None:
    """A spool told twice or not known, more than there is, sums that differ: nothing is taken."""
    told(ledger, _chapter(left_g), DAY)
    with pytest.raises(LedgerError, match=says):
        told(ledger, [tell("done", "R-07.1", **body)], DAY)
