"""A plan of some jobs of a chapter says which it leaves out."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from planner.cli.ledger.chapter_state import ChapterState
from planner.cli.plan.left_out import left_out
from planner.ledger import made, told
from tests.ledger.telling import DAY, chapter, tell


def test_jobs_with_planned_plates_that_a_plan_does_not_name_are_told(tmp_path: Any) -> None:
    """Of three recipients one is planned: the one whose plates wait is told, the one whose plates are printed is not."""
    engine = made(str(tmp_path / "ledger.db"))
    told(engine, [*chapter("R-07"), *chapter("R-08"), *chapter("R-09")], DAY)
    told(engine, [tell("done", f"R-09.{n}") for n in (1, 2)], DAY)
    plans: Any = {"r07": SimpleNamespace(job=SimpleNamespace(recipient="R-07"))}
    found = left_out(ChapterState(engine=engine, now=DAY), plans)

    assert list(found) == ["R-08"]
    assert "name all jobs" in found["R-08"]
