"""``fitwright calibrate``: a printer's own offsets from coupon readings."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JsonOption, QuietOption
from planner.sourced import Sourced


def calibrate(
    files: Annotated[
        list[Path] | None, typer.Argument(metavar="READINGS…", help="One or more readings.toml files.")
    ] = None,
    printer: Annotated[str, typer.Option("--printer", metavar="NAME", help="The profile to start from.")] = "bench-220",
    log: Annotated[
        Path | None, typer.Option("--log", metavar="CSV", help="The print log: planned and actual hours and grams.")
    ] = None,
    out_file: Annotated[
        Path | None, typer.Option("-o", "--out", metavar="FILE", help="File for the printer's own profile.")
    ] = None,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Compute a printer's offsets from coupon readings and its rates from the print log, and write its own profile.

    Examples: `fitwright calibrate coupon/readings.toml -o mine.toml`,
    `fitwright calibrate --log prints.csv --printer mine.toml -o mine.toml`
    """
    from planner.calibrate import (
        FamilyRisk,
        family_risks,
        fitted,
        logged,
        own_profile,
        read_log,
        read_readings,
        with_families,
    )
    from planner.errors import CommandError
    from planner.job import printer_text, read_printer
    from planner.output import Out, calibrate_json, show_fitted, show_logged
    from planner.whole_file import write_text

    read = [read_readings(file) for file in files or []]
    if not read and log is None:
        raise CommandError(
            where="calibrate", wrong="there is nothing to read", todo="name a readings.toml or --log CSV"
        )
    last = max(read, key=lambda one: one.taken, default=None)
    if last and {(one.material, one.nozzle_mm) for one in read} != {(last.material, last.nozzle_mm)}:
        raise CommandError(
            where=", ".join(file.name for file in files or []),
            wrong="they are for different materials or nozzles",
            todo="calibrate each separately",
        )
    here = Path.cwd()
    before = read_printer(printer, here)
    path = out_file or Path(f"{before.name}-own.toml")
    if path.suffix != ".toml":
        raise CommandError(where=str(path), wrong="a profile is a .toml file", todo="name a file that ends in .toml")
    found, rates = None, None
    families: tuple[FamilyRisk, ...] = ()
    values: dict[str, Sourced | None] = {}
    if last is not None:
        source = f"coupon of {last.taken} in {last.material}, calipers"
        found = fitted([reading for one in read for reading in one.readings], source)
        values |= {"upright_mm": found.upright_mm, "lying_mm": found.lying_mm, "least_gap_mm": found.least_gap_mm}
    if log is not None:
        prints = read_log(log)
        rates = logged(prints, before.failure_per_hour, f"print log {log.name}")
        families = family_risks(prints, rates.failure_per_hour.value, f"print log {log.name}")
        values |= {"time_ratio": rates.time_ratio, "mass_ratio": rates.mass_ratio}
        values |= {"failure_per_hour": rates.failure_per_hour}
    write_text(path, with_families(own_profile(printer_text(printer, here), values, last), families))
    after = read_printer(str(path.resolve()), here)
    out = Out(json_path=json, quiet=quiet)
    out.emit(calibrate_json(path, last, found, rates, families))
    if found is not None and last is not None:
        show_fitted(out.console, before, after, found, last)
    if rates is not None:
        show_logged(out.console, before, rates, families)
    out.console.print(f'\nIn the job: printer = "{path}"', markup=False, soft_wrap=True)
