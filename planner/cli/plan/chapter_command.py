"""``fitwright chapter``: all jobs of a chapter together, with totals by recipient, printer, spool and print log."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from planner.cli.options import JsonOption, PaperChoice, PaperOption, QuietOption, WorkersOption

if TYPE_CHECKING:
    from planner.cli.ledger.chapter_state import ChapterState
    from planner.job import Job


def chapter(
    jobs: Annotated[list[Path], typer.Argument(help="Job files, or a folder with one subfolder and job.toml per job.")],
    out_dir: Annotated[Path, typer.Option("-o", "--out", metavar="DIR", help="Folder for all results.")] = Path(
        "chapter"
    ),
    ledger: Annotated[
        str, typer.Option("--ledger", metavar="FILE|URL", help="Plan from a ledger; left out: the one of chapter.toml.")
    ] = "",
    paper: PaperOption = PaperChoice.a4,
    workers: WorkersOption = "",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Plan all jobs of a chapter on one calendar, and total them by recipient, printer, spool and print log.

    The plans are the same as those of `fitwright plan`; print logs are read from the folders of the jobs.
    With a ledger the plan starts from what it knows: what is printed is not planned again, nothing lies in the past,
    the spools are its own, and every plate has an id for life.
    A job that cannot be read is a hold, and the others are planned.
    Examples: `fitwright chapter jobs`, `fitwright chapter jobs --ledger ledger.db`,
    `fitwright chapter r07/job.toml r11/job.toml -o chapter`
    """
    from planner.cli.load_job import named
    from planner.cli.plan.several import plan_together
    from planner.cores import on_workers
    from planner.output import Out

    out = Out(json_path=json, quiet=quiet)

    def read(path: Path) -> Job:
        return named(path, several=True)

    state = state_of(ledger, jobs)
    with on_workers(workers):
        verdict = plan_together(job_files(jobs), read, out_dir, paper.value, out, state=state)
    raise typer.Exit(0 if verdict.passes else 1)


def state_of(ledger: str, jobs: Sequence[Path]) -> ChapterState | None:
    """Return the ledger that is named, or that the chapter's file of these jobs names; None where none is.

    Raises
    ------
    CommandError
        Where jobs of two chapters are named.
    """
    from planner.cli.ledger.chapter_state import ChapterState
    from planner.cli.ledger.ledger_options import moment_of
    from planner.ledger import leads_of, ledger_beside, money_of, moves_of, opened
    from planner.plan import Leads

    files = chapter_files(jobs)
    where = ledger or next((named for path in files if (named := ledger_beside(path))), "")
    if not where:
        return None
    folder = files[0].parent if files else Path()
    money = money_of(files[0]) if files else {}
    moves = moves_of(files[0]) if files else None
    rest = {} if moves is None else {"moves_a_day": moves}
    days, of_item = leads_of(files[0]) if files else (None, {})
    leads = Leads(days=days, of_item=of_item)
    return ChapterState(engine=opened(where), now=moment_of(""), folder=folder, money=money | rest, leads=leads)


def chapter_files(paths: Sequence[Path]) -> list[Path]:
    """Return the chapter's file of jobs: in a folder that is named, or beside the folders of the jobs; none, or one.

    Raises
    ------
    CommandError
        Where jobs of two chapters are named.
    """
    from planner.cli.ledger.ledger_options import CHAPTER
    from planner.errors import CommandError

    homes = [path if path.is_dir() else path.parent for path in paths]
    inside, beside = [home / CHAPTER for home in homes], [home.resolve().parent / CHAPTER for home in homes]
    found = {(own if own.is_file() else by).resolve(): None for own, by in zip(inside, beside, strict=True)}
    files = [path for path in found if path.is_file()]
    if len(files) > 1:
        wrong = f"{files[0]} and {files[1]} are two chapters"
        raise CommandError(where="jobs", wrong=wrong, todo="plan each chapter by itself")
    return files


def job_files(paths: Sequence[Path]) -> list[Path]:
    """Return the job files that paths name, each once: a file, a folder with one, or a folder of such folders.

    Raises
    ------
    CommandError
        Where a folder holds no job.toml, nor does any folder in it.
    """
    from planner.errors import CommandError

    found: dict[Path, Path] = {}
    for path in paths:
        inside = sorted(path.glob("*/job.toml")) if path.is_dir() else []
        own = path / "job.toml" if path.is_dir() else path
        files = [own] if own.is_file() or not path.is_dir() else inside
        if not files:
            wrong = "neither it nor a folder in it has a job.toml"
            raise CommandError(where=str(path), wrong=wrong, todo="name job files, or write one with fitwright start")
        found |= {file.resolve(): file for file in files if file.resolve() not in found}
    return list(found.values())
