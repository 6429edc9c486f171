"""Prints that several spools fed, coupons' readings and blocked printers in a ledger of before."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import inspect

from planner.ledger import brought_up, made, opened, recalled, told
from planner.ledger.upgrade_schema import upgraded
from tests.ledger.telling import DAY, chapter, tell


def test_a_ledger_of_before_has_spools_and_readings(tmp_path: Path) -> None:
    """Brought up from version 3 it has the tables and columns, and a print that it held is recalled by its lot."""
    where = str(tmp_path / "ledger.db")
    engine = made(where)
    told(engine, [*chapter(), tell("done", "R-07.1")], DAY)
    upgraded(engine, "3")
    brought_up(where)

    found = inspect(opened(where))
    assert {"fed", "coupon_read"} <= set(found.get_table_names())
    assert "blocked" in {column["name"] for column in found.get_columns("printer")}
    assert [row["plate"] for row in recalled(opened(where), "L-9")] == ["R-07.1"]
