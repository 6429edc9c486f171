"""Opening: a ledger of this version, or one sentence that says what to do."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import text

from planner.errors import LedgerError
from planner.ledger import brought_up, made, opened
from planner.ledger.open_ledger import version


def test_a_new_ledger_opens_and_is_not_made_twice(where: str) -> None:
    """Made, it opens; made again, it is refused and stays."""
    made(where)
    assert version(opened(where), where) is not None
    with pytest.raises(LedgerError, match="already"):
        made(where)


def test_a_damaged_file_is_refused_with_what_to_do(tmp_path: Path) -> None:
    """Pages overwritten, a text, an empty file, a folder, none at all: each is a sentence, and no file is made."""
    file = tmp_path / "ledger.db"
    made(str(file))
    whole = file.read_bytes()
    for damaged in (whole[:4096] + b"\xff" * (len(whole) - 4096), b"hello" * 500, b""):
        file.write_bytes(damaged)
        with pytest.raises(LedgerError, match=r"restore|init"):
            opened(str(file))
    with pytest.raises(LedgerError, match="init"):
        opened(str(tmp_path / "none.db"))
    with pytest.raises(LedgerError, match="no kind of ledger"):
        opened("mysql://host/ledger")
    with pytest.raises(LedgerError, match="cannot be reached"):
        opened(f"postgresql://tests@/none?host={tmp_path}")
    assert not (tmp_path / "none.db").exists()


def test_another_version_is_told(tmp_path: Path) -> None:
    """One that a newer program made is not touched."""
    where = str(tmp_path / "ledger.db")
    with made(where).begin() as db:
        db.execute(text("UPDATE alembic_version SET version_num = '99'"))
    for use in (opened, brought_up):
        with pytest.raises(LedgerError, match="newer program"):
            use(where)
