"""``fitwright learn``: the settings of a G-code program that printed well, copied into the job."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JsonOption, PrinterOption, QuietOption


def learn(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A G-code program that printed well, as plain text.")],
    job: Annotated[Path, typer.Option("--job", metavar="JOB", help="The job.toml that gets the settings.")],
    printer: PrinterOption = None,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Copy layer, widths, speeds, accelerations and temperatures of a G-code program into the job's settings.

    Example: `fitwright learn good.gcode --job job.toml`
    """
    from rich.table import Table

    from planner.cli.load_job import load
    from planner.errors import CommandError
    from planner.gcode import learnt
    from planner.job import write_settings
    from planner.output import Out, notes

    path = job / "job.toml" if job.is_dir() else job
    if not path.is_file():
        raise CommandError(where=str(job), wrong="there is no job file", todo="write one with fitwright start")
    out = Out(json_path=json, quiet=quiet)
    before = load(path, printer=printer)
    found = learnt(file, before.printer)
    write_settings(path, found.values, f"learnt from {file.name}")
    out.emit({"schema": "fitwright/learn/1", "job": str(path), "learnt": found.values, "not_learnt": found.missing})
    table = Table(title=f"Settings read from {file.name}", title_justify="left", box=None)
    for title in ("setting", "now", "before"):
        table.add_column(title, justify="left" if title == "setting" else "right")
    for name, value in found.values.items():
        old = getattr(before.settings, name)
        table.add_row(name, f"{value:g}", "-" if old is None else f"{old.value:g}")
    out.console.print(table)
    notes(out.console, "Not found in the program", [f"{name}: {why}" for name, why in found.missing.items()])
    out.console.print(f"\nWritten to {path}.", markup=False, soft_wrap=True)
