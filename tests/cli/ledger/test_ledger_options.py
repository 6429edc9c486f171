"""Which ledger, and when."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from planner.cli.ledger.ledger_options import event_of, ledger_at, moment_of
from planner.errors import CommandError


def test_a_moment_is_read_and_lies_in_the_past() -> None:
    """A day with an hour is read, left out it is now; nonsense and what is to come are refused."""
    assert moment_of("2026-01-31T18:30") == datetime(2026, 1, 31, 18, 30)
    assert abs((datetime.now() - moment_of("")).total_seconds()) < 60  # noqa: DTZ005  the clock on the wall
    for wrong in ("yesterday", "2999-01-01"):
        with pytest.raises(CommandError, match="--when"):
            moment_of(wrong)


def test_what_nobody_said_is_left_out() -> None:
    """An empty option is no fact; nought grams are one."""
    assert event_of("done", "R-07.1", "", "maker", used_g=None, spool="", left_g=0.0).body == {"left_g": 0.0}


def test_without_a_ledger_it_is_said_how_to_name_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """In a folder without chapter.toml the option is named."""
    monkeypatch.chdir(tmp_path)
    with pytest.raises(CommandError, match=r"chapter\.toml"):
        ledger_at("")
