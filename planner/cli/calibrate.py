"""``fitwright calibrate``: a printer's own offsets out of a coupon's readings."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JsonOption, QuietOption


def calibrate(
    files: Annotated[list[Path], typer.Argument(metavar="READINGS…", help="One readings.toml, or several.")],
    printer: Annotated[str, typer.Option("--printer", metavar="NAME", help="The profile to begin with.")] = "bench-220",
    out_file: Annotated[
        Path | None, typer.Option("-o", "--out", metavar="FILE", help="The printer's own profile.")
    ] = None,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Fit a printer's real offsets to measurements of the coupon, and write its own profile.

    Example: `fitwright calibrate coupon/readings.toml --printer bench-220 -o mine.toml`
    """
    from dataclasses import asdict

    from rich.table import Table

    from planner.calibrate import fitted, own_profile, read_readings
    from planner.cli.output import Out, notes
    from planner.errors import CommandError
    from planner.job import printer_text, read_printer
    from planner.report import write_text

    read = [read_readings(file) for file in files]
    last = max(read, key=lambda one: one.taken)
    if {(one.material, one.nozzle_mm) for one in read} != {(last.material, last.nozzle_mm)}:
        raise CommandError(
            where=", ".join(file.name for file in files),
            wrong="they are of different materials or nozzles",
            todo="calibrate each by itself",
        )
    here = Path.cwd()
    before = read_printer(printer, here)
    found = fitted(
        [reading for one in read for reading in one.readings], f"coupon of {last.taken} in {last.material}, calipers"
    )
    path = out_file or Path(f"{before.name}-own.toml")
    if path.suffix != ".toml":
        raise CommandError(where=str(path), wrong="a profile ends in .toml", todo="name a .toml file")
    write_text(path, own_profile(printer_text(printer, here), found, last))
    after = read_printer(str(path.resolve()), here)
    out = Out(json_path=json, quiet=quiet)
    out.emit(
        {
            "schema": "fitwright/calibrate/1",
            "profile": str(path),
            "material": last.material,
            "undersize": {
                way: None if value is None else asdict(value)
                for way, value in (
                    ("upright_mm", found.upright_mm),
                    ("lying_mm", found.lying_mm),
                    ("pin_mm", found.pin_mm),
                )
            },
            "least_wall_mm": None if found.least_wall_mm is None else asdict(found.least_wall_mm),
            "least_gap_mm": None if found.least_gap_mm is None else asdict(found.least_gap_mm),
            "scales_percent": {axis: asdict(value) for axis, value in found.scales_percent.items()},
            "notes": list(found.notes),
        }
    )
    table = Table(title=f"{after.name}, measured in {last.material} on {last.taken}", title_justify="left", box=None)
    for title in ("", "before", "now", "95 % between"):
        table.add_column(title, justify="left" if not title else "right")
    rows = (
        ("upright bores are smaller by", before.undersize.upright_mm, found.upright_mm),
        ("lying bores are smaller by", before.undersize.lying_mm, found.lying_mm),
        ("pins are smaller by", None, found.pin_mm),
        ("least wall", None, found.least_wall_mm),
        ("least running gap", before.least_gap_mm, found.least_gap_mm),
        *((f"size along {axis} (%)", None, value) for axis, value in found.scales_percent.items()),
    )
    for name, old, new in rows:
        unit = "" if "%" in name else " mm"
        cells = ("-", "-") if new is None else (f"{new.value:.3f}{unit}", f"{new.low:.3f} and {new.high:.3f}")
        table.add_row(name, "-" if old is None else f"{old.value:.3f}{unit}", *cells)
    out.console.print(table)
    notes(out.console, "Notes", found.notes)
    out.console.print(f'\nIn the job: printer = "{path}"', markup=False, soft_wrap=True)
