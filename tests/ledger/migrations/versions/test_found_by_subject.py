"""The second version."""

from __future__ import annotations

from sqlalchemy import inspect
from sqlalchemy.engine import Engine


def test_events_are_found_by_what_they_are_about(ledger: Engine) -> None:
    """The journal has an index on its subjects."""
    assert [index["column_names"] for index in inspect(ledger).get_indexes("event")] == [["subject"]]
