"""``fitwright start``: a folder of meshes becomes a commented job file."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JsonOption, PrinterOption, QuietOption, UnitOption


def start(
    folder: Annotated[Path, typer.Argument(help="A folder of meshes.")],
    measure: Annotated[
        list[str] | None,
        typer.Option(
            "--measure",
            metavar="PART=MM",
            help="A measure of the recipient in mm, compared with the inside of a part at its middle: `cuff=58`. "
            "`cuff=58/62` also gives the device's own measure at 100 %; `cuff=around:190` is a circumference.",
        ),
    ] = None,
    side: Annotated[str | None, typer.Option("--side", help="left or right.")] = None,
    bed: Annotated[
        str | None, typer.Option("--bed", metavar="XxYxZ", help="Your printer's bed, such as 220x220x240.")
    ] = None,
    have: Annotated[
        str | None, typer.Option("--have", metavar="LIST", help="Materials you have, such as pla,petg.")
    ] = None,
    printer: PrinterOption = None,
    unit: UnitOption = None,
    force: Annotated[bool, typer.Option("--force", help="Replace an existing job.toml.")] = False,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Write a commented job.toml for a folder of meshes; every guess in it is marked.

    Examples: `fitwright start ./meshes`, `fitwright start ./meshes --measure cuff=58 --side left --bed 220x220x240`
    """
    from planner.cli.fit.start_words import measures_of, printer_of, side_of, spools_of
    from planner.errors import CommandError
    from planner.job import Size, job_of_folder, job_text
    from planner.output import Out, notes, write_text
    from planner.plan import prepare

    out = Out(json_path=json, quiet=quiet)
    if not folder.is_dir():
        raise CommandError(where=str(folder), wrong="this is not a folder", todo="name a folder of meshes")
    target = folder / "job.toml"
    if target.exists() and not force:
        raise CommandError(where=str(target), wrong="it already exists", todo="edit it, or add --force to replace it")
    chosen, printer_name, profile = printer_of(printer, bed, folder)
    bare = job_of_folder(folder, printer=chosen, spools=spools_of(have), mesh_unit=unit)
    names = [part.name for part in bare.parts]
    size = Size(side=side_of(side), measures=measures_of(measure or [], names))
    job = job_of_folder(folder, printer=chosen, size=size, spools=spools_of(have), mesh_unit=unit)
    with out.progress() as progress:
        ready = prepare(job, date.today(), progress)
    if profile is not None:
        write_text(folder / f"{printer_name}", profile)
    write_text(target, job_text(ready.job, {name: found.sha256 for name, found in ready.surveys.items()}, printer_name))
    out.emit(
        {
            "schema": "fitwright/start/1",
            "file": str(target),
            "parts": [part.name for part in ready.job.parts],
            "guesses": [{"what": g.what, "value": g.value, "why": g.why} for g in ready.bound.guesses],
        }
    )
    out.console.print(f"wrote {target}: {len(ready.job.parts)} parts, {len(ready.bound.guesses)} guesses", markup=False)
    notes(out.console, "Guesses", [f"{g.what}: {g.value} ({g.why})" for g in ready.bound.guesses])
    out.console.print(f"\nRead it, then run: fitwright check {target}", markup=False)
