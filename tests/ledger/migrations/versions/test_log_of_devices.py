"""The log of a device, in a ledger of before."""

from __future__ import annotations

from pathlib import Path

from planner.ledger import brought_up, made, opened, shown, told
from tests.ledger.telling import DAY, chapter, tell


def test_a_log_is_the_same_after_the_tables_are_made_again(tmp_path: Path) -> None:
    """A failed test and a complaint are there again, in their order."""
    where = str(tmp_path / "ledger.db")
    told(made(where), [*chapter(), tell("tested", "R-07", passed=False), tell("complained", "R-07", text="slips")], DAY)
    before = shown(opened(where), "devices", DAY.date())
    brought_up(where)

    assert shown(opened(where), "devices", DAY.date()) == before
    rows = [(row["what"], row["passed"], row["text"]) for row in before]
    assert rows == [("tested", False, ""), ("complained", None, "slips")]
