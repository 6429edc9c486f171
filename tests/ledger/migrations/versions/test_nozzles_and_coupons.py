"""Nozzles, coupons and retired spools in a ledger of before."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import inspect

from planner.ledger import brought_up, made, opened, shown
from planner.ledger.upgrade_schema import upgraded
from tests.ledger.telling import DAY


def test_a_ledger_of_before_has_coupons(tmp_path: Path) -> None:
    """Brought up from version 2 it has the table, and the columns of nozzles and retired spools."""
    where = str(tmp_path / "ledger.db")
    engine = made(where)
    upgraded(engine, "2")  # what is newer stays as it is: brought up, all of it is made anew
    brought_up(where)

    columns = {table: {c["name"] for c in inspect(opened(where)).get_columns(table)} for table in ("spool", "printer")}
    assert "retired" in columns["spool"]
    assert "nozzle_mm" in columns["printer"]
    assert shown(opened(where), "coupons", DAY.date()) == []
