"""The changes of the schema, run on a connection."""

from __future__ import annotations

from sqlalchemy import inspect
from sqlalchemy.engine import Engine

from planner.ledger.tables import EVENT, META


def test_the_changes_end_where_the_program_begins(ledger: Engine) -> None:
    """After all of them the journal has the columns that the program writes, and every table is there."""
    found = inspect(ledger)

    assert {column["name"] for column in found.get_columns("event")} == set(EVENT.c.keys())
    assert set(META.tables) <= set(found.get_table_names())
