"""What moved since the last plan, and why."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from types import SimpleNamespace
from typing import Any

import pytest
from sqlalchemy.engine import Engine

from planner.cli.ledger.moved_plates import moved
from planner.ledger import made, told
from tests.ledger.telling import DAY, chapter, tell


@dataclass
class Planned:
    """As much of a plan as is looked at: its recipient and its runs."""

    job: Any
    runs: list[Any]


def _plan(code: str, end: datetime) -> Any:
    """Return a plan of one run."""
    return Planned(job=SimpleNamespace(recipient=code), runs=[SimpleNamespace(end=end)])


@pytest.fixture(name="engine")
def _engine(tmp_path: Any) -> Engine:
    """Return a ledger in which R-07 is planned to be printed by 1 December at 19:30."""
    engine = made(str(tmp_path / "ledger.db"))
    told(engine, chapter(), DAY)
    return engine


def test_a_job_that_moved_is_told_with_the_plate_that_failed(engine: Engine) -> None:
    """From Tuesday to Thursday, because a plate failed; a job that came in is told as such."""
    told(engine, [tell("failed", "R-07.1", ran_s=60.0, cause="loose")], DAY)
    plans = [_plan("R-07", DAY + timedelta(days=2)), _plan("R-08", DAY + timedelta(days=3))]
    rows = moved(engine, plans, datetime(2026, 12, 1, 17, 30))

    assert rows == [
        {
            "job": "R-07",
            "was": "printed by Tue 1 Dec",
            "now": "printed by Thu 3 Dec",
            "why": "R-07.1 failed on bench-1 (loose)",
        },
        {"job": "R-08", "was": "not planned", "now": "printed by Fri 4 Dec", "why": "it came in"},
    ]


def test_the_blocked_printer_is_why_its_plates_moved(engine: Engine) -> None:
    """R-07 stood on bench-1, which was blocked: that is why it moves; let go again before the plan, it is not."""
    later = [_plan("R-07", DAY + timedelta(days=2))]
    printer = tell("printer", "bench-1", profile="bench-220", attended=[], calibrated_until=None)
    told(engine, [printer, tell("blocked", "bench-1", why="new hot end")], DAY)
    (row,) = moved(engine, later, DAY - timedelta(hours=1))
    assert row["why"] == "bench-1 takes no plates (new hot end)"

    told(engine, [tell("measured", "bench-1", nozzle_mm=0.4, material="petg", until="2027-03-01")], DAY)
    (row,) = moved(engine, later, DAY - timedelta(hours=1))
    assert row["why"] == "the jobs, the printers or the hours are others now"  # blocked and free again: as it was


def test_a_start_that_was_missed_is_told_and_what_stays_is_not(engine: Engine) -> None:
    """Nobody said by Wednesday that the plate of Tuesday runs; a plan that ends on the same day is no news."""
    wednesday = DAY + timedelta(days=1)
    (row,) = moved(engine, [_plan("R-07", wednesday)], wednesday)

    assert row["why"] == "R-07.1 was to start on Tue 1 Dec 17:30, and nobody said that it runs"
    assert moved(engine, [_plan("R-07", DAY)], DAY - timedelta(hours=1)) == []
