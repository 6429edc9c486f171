"""``fitwright window``: the sizes that work, and what limits them."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Annotated

import typer

from planner.cli.options import (
    JobArgument,
    JsonOption,
    PrinterOption,
    QuietOption,
    ScaleOption,
    UnitOption,
    WorkersOption,
)

if TYPE_CHECKING:
    from planner.job import Job


def window(
    job: JobArgument,
    scale: ScaleOption = None,
    printer: PrinterOption = None,
    unit: UnitOption = None,
    limits: Annotated[bool, typer.Option("--limits", help="Also list every feature that sets a limit.")] = False,
    prove: Annotated[
        bool, typer.Option("--prove", help="Try what re-boring promises: cut, measure and judge (seconds a part).")
    ] = False,
    workers: WorkersOption = "",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Show at which sizes the device works, and which features set the limits.

    Examples: `fitwright window job.toml`, `fitwright window job.toml --printer small-180`,
    `fitwright window job.toml --limits`, `fitwright window job.toml --prove`
    """
    from planner.cli.kept_answer import answer
    from planner.cli.load_job import load
    from planner.cores import on_workers

    read = load(job, percent=scale, printer=printer, unit=unit)
    asked = {"command": "window", "path": job, "limits": limits, "prove": prove, "quiet": quiet}

    def said() -> int:
        with on_workers(workers):
            return _said(read, json, limits=limits, prove=prove, quiet=quiet)

    answer(read, asked, said, json)


UNTRIED = "\nWhat re-boring would allow is not tried: --prove cuts the parts, measures and judges them."


def _said(read: Job, json: str, *, limits: bool, prove: bool, quiet: bool) -> int:
    """Tell the sizes of a job that was read, and return the exit code."""
    from planner.output import Out, rebored_words, show_limits, show_widenings, show_window, window_json
    from planner.plan import prepare, what_widens
    from planner.size import feature_windows, part_window
    from planner.size import window as window_of

    out = Out(json_path=json, quiet=quiet)
    with out.progress() as progress:
        ready = prepare(read, date.today(), progress)
    percent = ready.sizing.percent
    whole = window_of(ready.bound.every, percent)
    parts = [part_window(ready.bound.every, percent, part.name) for part in ready.job.parts]
    features = feature_windows(ready.bound.every, percent)
    steps = what_widens(ready, prove=prove)
    out.emit(window_json(whole, parts, percent, limits=features, widenings=steps))
    show_window(out.console, ready.job.name, percent, whole, parts)
    if recut := rebored_words(ready.job, percent):
        out.console.print(recut, markup=False)
    if limits:
        show_limits(out.console, percent, features)
    show_widenings(out.console, percent, whole, steps)
    if not prove and ready.job.hardware and not any(step.recut and step.proved for step in steps):
        out.console.print(UNTRIED, markup=False)
    return 0 if any(interval.holds(percent) for interval in whole.passes.intervals) else 1
