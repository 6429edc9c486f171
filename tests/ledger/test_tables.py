"""Rows that are written in place of others."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.engine import Engine

from planner.ledger.tables import ITEM, put


def test_a_row_takes_the_place_of_the_one_with_its_key(ledger: Engine) -> None:
    """Two writes of one item leave the second, beside another item."""
    with ledger.begin() as db:
        for name, n in (("nut", 1.0), ("screw", 2.0), ("nut", 3.0)):
            put(db, ITEM, name=name, n=n)

        assert sorted(map(tuple, db.execute(select(ITEM.c.name, ITEM.c.n)))) == [("nut", 3.0), ("screw", 2.0)]
