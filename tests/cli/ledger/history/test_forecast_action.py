"""``ledger LEDGER forecast`` from the command line."""

from __future__ import annotations

import json
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from planner.cli.ledger.history.forecast_action import months_told
from planner.errors import CommandError
from planner.ledger import made, told
from tests.cli.running import run
from tests.ledger.history.made_history import START, printer
from tests.ledger.history.test_months_ahead import _device


def test_months_and_waiting_times_are_told_or_what_is_missing(tmp_path: Path) -> None:
    """Exit code 1 and what is missing for a new ledger; then devices a month and the days that people wait."""
    engine = made(str(tmp_path / "ledger.db"))
    told(engine, [printer("bench-1")], START)
    thin = run("ledger", "ledger.db", "forecast", cwd=tmp_path)
    assert (thin.returncode, "HOLD" in thin.stdout) == (1, True)
    answer = json.loads(run("ledger", "ledger.db", "forecast", "--json", "-", cwd=tmp_path).stdout)
    assert (answer["verdict"], answer["forecast"], answer["waiting_days"]) == ("hold", [], None)

    begin = datetime(2020, 1, 1)
    days = [begin + timedelta(days=20 * n) for n in range(12)]
    told(engine, [event for n, at in enumerate(days) for event in _device(f"R-{n}", at, at, at)], days[-1])
    played = run("ledger", "ledger.db", "forecast", "2", cwd=tmp_path)
    assert played.returncode == 0, played.stderr
    assert "Whoever comes in then waits" in played.stdout
    found = json.loads(run("ledger", "ledger.db", "forecast", "2", "--json", "-", cwd=tmp_path).stdout)
    assert len(found["forecast"]) == 3
    assert set(found["forecast"][0]["devices"]) == {"p10", "p50", "p90"}
    assert found["verdict"] == "go"


def test_months_are_one_to_eleven() -> None:
    """Left out: six; a calendar reaches a year."""
    assert (months_told(""), months_told("11")) == (6, 11)
    for wrong in ("0", "12", "two", "-1"):
        with pytest.raises(CommandError, match="no number of months"):
            months_told(wrong)
