"""An older ledger is brought up to date with all that it holds."""

from __future__ import annotations

import pytest
from sqlalchemy import insert, inspect, text

from planner.errors import LedgerError
from planner.ledger import brought_up, opened, shown
from planner.ledger.open_ledger import _engine
from planner.ledger.tables import EVENT
from planner.ledger.upgrade_schema import REVISIONS, upgraded
from tests.ledger.telling import DAY, chapter


def test_a_ledger_of_the_first_version_keeps_its_events(where: str) -> None:
    """It is refused with the command, then upgraded: its plates are there, older tables of today are made anew."""
    engine = _engine(where)
    upgraded(engine, REVISIONS[0])
    with engine.begin() as db:
        db.execute(text("DROP TABLE item"))
        for event in chapter():
            row = {"key": event.key, "at": event.at, "known_at": DAY, "role": event.role, "kind": event.kind}
            db.execute(insert(EVENT).values(**row, subject=event.subject, body=dict(event.body)))
    with pytest.raises(LedgerError, match="upgrade"):
        opened(where)

    assert brought_up(where) == (REVISIONS[0], REVISIONS[-1])
    engine = opened(where)
    assert [row["id"] for row in shown(engine, "plates", DAY.date())] == ["R-07.1", "R-07.2"]
    assert shown(engine, "stock", DAY.date()) == []
    assert {index["name"] for index in inspect(engine).get_indexes("event")} >= {"event_subject"}
