"""``fitwright window``: the sizes that work, and what limits them."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from planner.cli.options import JobArgument, JsonOption, PrinterOption, QuietOption, ScaleOption, UnitOption


def window(
    job: JobArgument,
    scale: ScaleOption = None,
    printer: PrinterOption = None,
    unit: UnitOption = None,
    limits: Annotated[bool, typer.Option("--limits", help="Also list every feature that sets a limit.")] = False,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Show at which sizes the device works, and which features set the limits.

    Examples: `fitwright window job.toml`, `fitwright window job.toml --printer small-180`,
    `fitwright window job.toml --limits`
    """
    from planner.cli.load_job import load
    from planner.output import Out, rebored_words, show_limits, show_widenings, show_window, window_json
    from planner.plan import prepare, what_widens
    from planner.size import feature_windows, part_window
    from planner.size import window as window_of

    out = Out(json_path=json, quiet=quiet)
    with out.progress() as progress:
        ready = prepare(load(job, percent=scale, printer=printer, unit=unit), date.today(), progress)
    percent = ready.sizing.percent
    whole = window_of(ready.bound.every, percent)
    parts = [part_window(ready.bound.every, percent, part.name) for part in ready.job.parts]
    features = feature_windows(ready.bound.every, percent)
    steps = what_widens(ready, prove=True)
    out.emit(window_json(whole, parts, percent, limits=features, widenings=steps))
    show_window(out.console, ready.job.name, percent, whole, parts)
    if recut := rebored_words(ready.job, percent):
        out.console.print(recut, markup=False)
    if limits:
        show_limits(out.console, percent, features)
    show_widenings(out.console, percent, whole, steps)
    inside = any(interval.holds(percent) for interval in whole.passes.intervals)
    raise typer.Exit(0 if inside else 1)
