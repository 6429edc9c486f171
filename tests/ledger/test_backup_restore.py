"""Backup, restore, export, import: what comes back is what was there."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from sqlalchemy import inspect

from planner.errors import LedgerError
from planner.ledger import backed_up, exported, imported, made, opened, restored, told
from planner.ledger.tables import EVENT
from tests.ledger.telling import DAY, chapter, tell
from tests.ledger.test_journal import of_today


def test_a_restored_ledger_equals_its_backup(where: str, tmp_path: Path) -> None:
    """What was told after the backup is gone again, and events can be told on; a file that is damaged is replaced."""
    engine, backup = made(where), tmp_path / "kept.db"
    told(engine, chapter(), DAY)
    backed_up(engine, backup, tell("backup", "ledger", path=str(backup)), DAY)
    before = of_today(engine)
    told(engine, [tell("done", "R-07.1")], DAY)
    engine.dispose()
    if "://" not in where:
        Path(where).write_bytes(b"\xff" * 5000)

    assert restored(where, backup) == len(chapter()) + 1
    engine = opened(where)
    assert of_today(engine) == before == of_today(opened(str(backup)))
    told(engine, [tell("done", "R-07.2")], DAY)
    with pytest.raises(LedgerError, match=r"damaged|no ledger"):
        restored(where, Path(__file__))


def test_an_export_is_read_by_people_and_makes_the_ledger_again(where: str, tmp_path: Path) -> None:
    """The CSV tables hold the plates, the journal makes a ledger with the same tables; imported twice it adds nothing."""
    engine = made(where)
    told(engine, [*chapter(), tell("failed", "R-07.1", cause="loose", ran_s=3600.0, lost={"jaw": 1})], DAY)
    files = exported(engine, tmp_path / "out")
    other = made(str(tmp_path / "other.db"))

    assert imported(other, tmp_path / "out") == (4, 4)
    assert imported(other, tmp_path / "out") == (0, 4)
    assert of_today(other) == of_today(engine)
    third = made(str(tmp_path / "third.db"))
    assert imported(third, tmp_path / "out" / "journal.csv") == (4, 4)
    assert of_today(third) == of_today(engine)
    assert {path.stem for path in files} == {"journal", *inspect(engine).get_table_names()} - {
        "alembic_version",
        EVENT.name,
    }
    with (tmp_path / "out" / "plate.csv").open(encoding="utf-8", newline="") as file:
        assert [row["state"] for row in csv.DictReader(file)] == ["failed", "planned"]
    (tmp_path / "out" / "journal.json").write_text("{}", encoding="utf-8")
    with pytest.raises(LedgerError, match="no exported journal"):
        imported(other, tmp_path / "out")
