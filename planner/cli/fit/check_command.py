"""``fitwright check``: the verdict of every part and joint at the job's scale."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict

import typer

from planner.cli.options import (
    AllOption,
    DoOption,
    IntoOption,
    JobArgument,
    JsonOption,
    MaterialOption,
    PartOption,
    PrinterOption,
    QuietOption,
    ScaleOption,
    UnitOption,
    WorkersOption,
)

if TYPE_CHECKING:
    from planner.job import Job


def check(
    job: JobArgument,
    scale: ScaleOption = None,
    printer: PrinterOption = None,
    material: MaterialOption = None,
    unit: UnitOption = None,
    everything: AllOption = False,
    part: PartOption = "",
    do: DoOption = None,
    into: IntoOption = None,
    workers: WorkersOption = "",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Check whether every part and joint works at the job's scale, and say what to do about those that do not.

    The answer fits one screen; `--all` shows everything, `--part cuff` all that is said of one part. Every remedy
    that is shown was tried; `--do N` writes remedy N into the job.

    Examples: `fitwright check job.toml`, `fitwright check job.toml --scale 90`, `fitwright check ./meshes`,
    `fitwright check job.toml --do 1 --do 3 -o new.toml`
    """
    from planner.cli.kept_answer import answer
    from planner.cli.load_job import load
    from planner.cores import on_workers

    changed = Changes(percent=scale, printer=printer, material=material, unit=unit)
    read = load(job, **changed)
    if do:
        with on_workers(workers):
            raise typer.Exit(_said(job, read, changed, everything, part, do, into, json, quiet))
    asked = {"command": "check", "path": job, "all": everything, "part": part, "quiet": quiet}

    def said() -> int:
        with on_workers(workers):
            return _said(job, read, changed, everything, part, None, None, json, quiet)

    answer(read, asked, said, json)


class Changes(TypedDict):
    """What the command line changes of a job."""

    percent: float | None
    printer: str | None
    material: str | None
    unit: str | None


def _said(
    job: Path,
    read: Job,
    changed: Changes,
    everything: bool,
    part: str,
    do: list[int] | None,
    into: Path | None,
    json: str,
    quiet: bool,
) -> int:
    """Check a job that was read, say what there is to say, and return the exit code."""
    from planner.cli.fit.do_remedies import Replaced, done, named_remedies
    from planner.cli.load_job import known_part, load
    from planner.output import Out, check_json, check_lines, part_lines, remedy_lines, show_lines, size_sentences
    from planner.plan import prepare, proved_remedies
    from planner.rules import check as checked_at
    from planner.size import nearest_percent, window

    out = Out(json_path=json, quiet=quiet)
    with out.progress() as progress:
        ready = prepare(read, date.today(), progress)
        remedies = proved_remedies(ready)
        path = job
        if do:
            path = done(ready.job, remedies, do, into, by="check", replaced=Replaced(**changed))
            ready = prepare(load(path), date.today(), progress)
            remedies = proved_remedies(ready)
    if part:
        known_part(part, ready.job)
    checked = checked_at(ready.bound, ready.sizing.percent)
    reach = window(ready.bound.every, ready.sizing.percent)
    out.emit(
        check_json(replace(checked, findings=remedies.shown(checked.findings)), reach, ready.sizing.measures, remedies)
    )
    checked = replace(checked, findings=remedies.shown(checked.findings, numbered=True, brief=not (everything or part)))
    if do:
        out.console.print(f"wrote {path} with {named_remedies(do)}; it is judged again:", markup=False)
    nearest = nearest_percent(reach.passes, checked.scale_percent)
    helps = not checked.verdict.passes and nearest is not None and nearest != checked.scale_percent
    lines = (
        part_lines(checked, part)
        if part
        else check_lines(
            checked,
            f"{ready.job.name} at {checked.scale_percent:.4g} %, printer {ready.job.printer.name}",
            size_sentences(ready.sizing.why, ready.sizing.measures),
            f"Nearest size that works: {nearest:.4g} % (fitwright window shows what would help)." if helps else "",
            f"fitwright check {path}",
            everything=everything,
        )
    )
    show_lines(out.console, lines)
    if everything:
        show_lines(out.console, remedy_lines(remedies, ready.job))
    return 0 if checked.verdict.passes else 1
