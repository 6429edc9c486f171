"""``fitwright release``: whether the record lets a device go out; the hand-over sheet is stamped either way."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import (
    JsonOption,
    LanguageOption,
    MaterialOption,
    PaperChoice,
    PrinterOption,
    QuietOption,
    ScaleOption,
    spoken,
)
from planner.phrases import listed


def release(
    job: Annotated[Path, typer.Argument(help="The job.toml that was planned, or its folder.")],
    record: Annotated[
        Path | None,
        typer.Option("--record", metavar="PATH", help="The record; by default that of the plan beside the job."),
    ] = None,
    paper: Annotated[
        PaperChoice | None, typer.Option("--paper", help="Paper size; by default that of the plan.")
    ] = None,
    language: LanguageOption = None,
    scale: ScaleOption = None,
    printer: PrinterOption = None,
    material: MaterialOption = None,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Read the record and release the hand-over sheet, or list what is missing. Exit 0 released, 1 not, 2 bad file.

    Examples: `fitwright release job.toml`, `fitwright release job.toml --record plan/bench/record.toml`
    """
    from planner.cli.load_job import load
    from planner.output import Out, read_record, release_json, show_release, write_release
    from planner.output import release as judge
    from planner.plan import make_plan, prepare

    out = Out(json_path=json, quiet=quiet)
    path = record or found_record(job)
    read = read_record(path)
    told = spoken(language) or read.of.language
    loaded = load(job, percent=scale, printer=printer, material=material, language=told)
    today = date.today()
    with out.progress() as progress:
        made = make_plan(prepare(loaded, today, progress), progress)
    judged = judge(made, read, today)
    mine = (read.of.job, read.of.recipient) == (made.job.name, made.job.recipient)
    bench = bench_of(path, job, mine=mine)
    sheet = write_release(made, bench, judged, paper.value if paper else read.of.paper)
    out.emit(release_json(made, judged, path, sheet))
    show_release(out.console, made, judged, sheet)
    raise typer.Exit(0 if judged.released else 1)


def bench_of(record: Path, job: Path, *, mine: bool) -> Path:
    """Return where the stamped papers go: beside the record if papers lie there, else to the job's plan.

    Beside a record that is not ``mine``, of another job or recipient, lie that one's papers: they stay as they are.

    Raises
    ------
    CommandError
        Where the record is another's and the job has no plan of its own to stamp.
    """
    from planner.errors import CommandError

    if mine and (record.parent / "papers.pdf").is_file():
        return record.parent
    try:
        return found_record(job).parent
    except CommandError:
        if not mine:
            raise
        return record.parent / "bench"


def found_record(job: Path) -> Path:
    """Return the record of the plan of a job: in ``plan`` beside the job, in the folder named, or in ``plan`` here.

    Raises
    ------
    CommandError
        Where there is none.
    """
    from planner.errors import CommandError
    from planner.output import RECORD

    base = job if job.is_dir() else job.parent
    places = [base / "plan", base, Path("plan")]
    found = [path for place in places if (path := place / "bench" / RECORD).is_file()]
    if found:
        return found[0]
    looked = listed((str(place / "bench") for place in dict.fromkeys(places)), "or")
    todo = "name the record with --record, or plan first: fitwright plan JOB -o plan"
    raise CommandError(where=str(job), wrong=f"there is no {RECORD} in {looked}", todo=todo)
