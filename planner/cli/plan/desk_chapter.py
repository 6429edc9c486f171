"""What a desk plans a chapter with: the work of ``fitwright chapter`` and ``fitwright ledger``, told to a page."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from planner.cli.ledger.ledger_command import begun, filled
from planner.cli.ledger.ledger_options import CHAPTER
from planner.cli.load_job import named
from planner.cli.plan.chapter_command import job_files, state_of
from planner.cli.plan.several import plan_together
from planner.errors import CommandError
from planner.job import Job
from planner.ledger import ledger_beside, opened
from planner.output import Out

Report = Callable[[str, float], None]
OUT = "chapter"
"""Where the command writes, too."""


class ToldOut(Out):
    """Prints nothing: progress goes to whoever asked for the plan, and the sums are kept."""

    def __init__(self, report: Report) -> None:
        super().__init__(json_path="", quiet=True)
        self._report = report
        self.sums: Mapping[str, Any] = {}

    def emit(self, result: Mapping[str, object]) -> None:
        """Keep the sums."""
        self.sums = result

    @contextmanager
    def progress(self) -> Iterator[Report]:
        """Tell how far the plan is."""
        yield self._report


def chapter_planned(folder: Path, report: Report) -> dict[str, Any]:
    """Plan the chapter in a folder from its ledger, into the folder ``chapter`` there, and return its sums."""

    def read(path: Path) -> Job:
        """Read a job; what is wrong with it names its path in the folder."""
        report(f"reading {path.parent.name}", 0.0)
        return named(path, several=True)

    out = ToldOut(report)
    plan_together(job_files([folder]), read, folder / OUT, "a4", out, state=state_of("", [folder]))
    return dict(out.sums)


def chapter_filled(folder: Path) -> str:
    """Make the ledger that the chapter's file names, or tell it what is new in the file; return what was done.

    Raises
    ------
    CommandError, LedgerError
        Where the folder has no chapter's file, it names no ledger, or something in it cannot be.
    """
    path = folder / CHAPTER
    where = ledger_beside(path) if path.is_file() else ""
    if not where:
        todo = f"write ledger in [chapter] of {CHAPTER} in this folder"
        raise CommandError(where=CHAPTER, wrong="no ledger is named", todo=todo)
    if "://" in where or Path(where).exists():
        return filled(opened(where), path)[0]
    return begun(where)[0]
