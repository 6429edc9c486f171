"""The spool that a plate is planned on, in a ledger of before."""

from __future__ import annotations

from pathlib import Path

from planner.ledger import as_planned, brought_up, made, opened, told
from tests.ledger.telling import DAY, chapter, plate, tell


def test_a_ledger_of_before_keeps_the_spool_that_is_planned(tmp_path: Path) -> None:
    """Plates told before have none; one that is told with its spool keeps it when the tables are made anew."""
    where = str(tmp_path / "ledger.db")
    told(made(where), [*chapter(), *chapter("R-08")], DAY)
    told(opened(where), [tell("plates", "R-07", plates=[{**plate("R-07.1", jaw=2), "spool": "S-1"}])], DAY)
    brought_up(where)

    assert [row["spool"] for row in as_planned(opened(where), "R-07")] == ["S-1"]
    assert {row["spool"] for row in as_planned(opened(where), "R-08")} == {None}
