"""The first version."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import inspect

from planner.ledger.open_ledger import _engine
from planner.ledger.upgrade_schema import REVISIONS, upgraded


def test_the_first_version_has_the_journal_and_no_index(tmp_path: Path) -> None:
    """Its keys are unique, so that no event is taken twice."""
    engine = _engine(str(tmp_path / "ledger.db"))
    upgraded(engine, REVISIONS[0])

    assert [c["column_names"] for c in inspect(engine).get_unique_constraints("event")] == [["key"]]
    assert inspect(engine).get_indexes("event") == []
