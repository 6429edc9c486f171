"""One job planned alone, beside a ledger that knows plates of it: said plainly, so that none is printed twice."""

from __future__ import annotations

import sys
from pathlib import Path

from planner.cli.ledger.ledger_options import chapter_files
from planner.errors import FitwrightError
from planner.job import Job
from planner.phrases import listed, plural

MADE = ("done", "running")
"""States of a plate that is not to be printed again."""


def say_planned_anew(job: Job, path: Path, named: str = "") -> None:
    """Say on stderr that a job's plan holds pieces again that its chapter's ledger knows as printed or running.

    ``named`` is the ledger, by default that of the chapter's file beside the job.
    """
    if not job.recipient or not (named or chapter_files(path)):
        return
    from planner.cli.ledger.failed_in_chapter import state_beside  # a plan outside a chapter loads no ledger
    from planner.ledger import job_and_number, shown

    try:
        state = state_beside(named, path)
        if state is None:
            return
        with state.engine.connect():
            rows = shown(state.engine, "plates", state.now.date())
    except FitwrightError as problem:
        told = f"{' '.join(str(problem).split())}; what it knows as printed is not left out of this plan"
        print(f"fitwright: {told}", file=sys.stderr)
        return
    made = [row["id"] for row in rows if row["state"] in MADE and job_and_number(row["id"])[0] == job.recipient]
    if made:
        are = "is" if len(made) == 1 else "are"
        told = f"{listed(made)} {are} printed or running by the ledger, and this plan of one job has all pieces again"
        todo = f"print what is left from fitwright chapter {path.resolve().parent.parent}"
        print(f"fitwright: {plural(len(made), 'plate')} of {job.recipient}: {told}; {todo}", file=sys.stderr)
