"""A ledger's tables in Parquet, read back by a reader that is not the writer's."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from planner.errors import LedgerError
from planner.ledger import in_parquet, made, told
from planner.ledger.tables import TODAY
from tests.ledger.telling import DAY, chapter, tell


def test_another_reader_counts_over_the_tables_what_was_told(tmp_path: Path) -> None:
    """DuckDB's own reader joins prints and placements: two jaws from plate R-07.1; empty tables keep typed columns."""
    pytest.importorskip("pyarrow")
    duckdb: Any = pytest.importorskip("duckdb")
    engine = made(str(tmp_path / "ledger.db"))
    told(engine, [*chapter(), tell("done", "R-07.1")], DAY)
    files = in_parquet(engine, tmp_path / "out")

    assert {path.stem for path in files} == {table.name for table in TODAY}
    base = duckdb.connect()
    for path in files:
        base.read_parquet(str(path)).create_view(f"{path.stem}s")
    ask = 'SELECT part, sum(n), sum(used_g), max("at") FROM prints JOIN placements USING (plate) GROUP BY part'
    assert base.sql(ask).fetchall() == [("jaw", 2, 40.0, DAY)]
    types = dict(zip(base.view("device_logs").columns, base.view("device_logs").types, strict=True))
    assert [str(types[name]) for name in ("at", "passed", "text")] == ["TIMESTAMP", "BOOLEAN", "VARCHAR"]


def test_without_the_library_it_says_what_to_install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An extra that is not installed is one sentence with its name, and nothing is written."""
    engine = made(str(tmp_path / "ledger.db"))
    monkeypatch.setattr("planner.ledger.carry.parquet_tables.find_spec", lambda _: None)
    with pytest.raises(LedgerError, match=r"fitwright\[tables\]"):
        in_parquet(engine, tmp_path / "out")
    assert not (tmp_path / "out").exists()
