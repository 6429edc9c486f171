"""``fitwright check``: the verdict of every part and joint at the job's scale."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

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
)


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
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Check whether every part and joint works at the job's scale, and say what to do about those that do not.

    The answer fits one screen; `--all` shows everything, `--part cuff` all that is said of one part. Every remedy
    that is shown was tried; `--do N` writes remedy N into the job.

    Examples: `fitwright check job.toml`, `fitwright check job.toml --scale 90`, `fitwright check ./meshes`,
    `fitwright check job.toml --do 1 --do 3 -o new.toml`
    """
    from planner.cli.fit.do_remedies import Replaced, done, named_remedies
    from planner.cli.load import known_part, load
    from planner.output import Out, check_json, check_lines, part_lines, remedy_lines, show_lines, size_sentences
    from planner.plan import prepare, proved_remedies
    from planner.rules import check as checked_at
    from planner.size import nearest_percent, window

    out = Out(json_path=json, quiet=quiet)
    with out.progress() as progress:
        ready = prepare(load(job, percent=scale, printer=printer, material=material, unit=unit), date.today(), progress)
        remedies = proved_remedies(ready)
        path = job
        if do:
            replaced = Replaced(percent=scale, printer=printer, material=material, unit=unit)
            path = done(ready.job, remedies, do, into, by="check", replaced=replaced)
            ready = prepare(load(path), date.today(), progress)
            remedies = proved_remedies(ready)
    if part:
        known_part(part, ready.job)
    checked = checked_at(ready.bound, ready.sizing.percent)
    reach = window(ready.bound.every, ready.sizing.percent)
    out.emit(
        check_json(replace(checked, findings=remedies.shown(checked.findings)), reach, ready.sizing.measures, remedies)
    )
    checked = replace(checked, findings=remedies.shown(checked.findings, numbered=True))
    if do:
        out.console.print(f"wrote {path} with {named_remedies(do)}; it is judged anew:", markup=False)
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
    raise typer.Exit(0 if checked.verdict.passes else 1)
