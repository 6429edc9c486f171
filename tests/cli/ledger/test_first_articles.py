"""First articles that run."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from planner.cli.ledger.chapter_state import ChapterState
from planner.cli.ledger.first_articles import off_the_bed, whole_minute
from planner.job import read_job
from planner.ledger import Event, opened, told
from tests.cli.running import run

NOON = datetime(2026, 12, 1, 12, 0, 20)


def test_the_others_wait_for_the_first_plate_that_runs_and_for_nothing_else(chapter: Path) -> None:
    """R-07.1 runs: the job goes on once it is off the bed, and asks for no other first article; done, it does not wait."""
    assert run("chapter", ".", "-o", "out", cwd=chapter).returncode in (0, 1)
    path = chapter / "r07" / "job.toml"
    path.write_text(path.read_text(encoding="utf-8") + "first_article = true\n", encoding="utf-8")
    engine, job = opened(str(chapter / "ledger.db")), read_job(path)
    state = ChapterState(engine=engine, now=NOON, folder=chapter)
    new = state.job_now(job).calendar
    assert new is not None
    assert (new.start, new.first_article) == (whole_minute(NOON), True)

    told(engine, [Event(key="a", at=NOON, kind="started", subject="R-07.1", body={})], NOON)
    (off,) = off_the_bed(engine, job)
    runs = state.job_now(job).calendar
    assert runs is not None
    assert (runs.start, runs.first_article) == (off, False)
    assert off > NOON

    told(engine, [Event(key="b", at=NOON, kind="done", subject="R-07.1", body={})], NOON)
    done = state.job_now(job).calendar
    assert done is not None
    assert (done.start, done.first_article) == (whole_minute(NOON), False)
