"""``fitwright coupon``: the small test piece from which a printer's own offsets are measured."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JsonOption, QuietOption


def coupon(
    out_dir: Annotated[Path, typer.Option("-o", "--out", metavar="DIR", help="Folder to write to.")] = Path("coupon"),
    printer: Annotated[str, typer.Option("--printer", metavar="NAME", help="A shipped name, or a path.")] = "bench-220",
    material: Annotated[str, typer.Option("--material", metavar="NAME", help="A shipped name, or a path.")] = "petg",
    settings: Annotated[
        str, typer.Option("--settings", metavar="NAME", help="A shipped name, or a path.")
    ] = "standard-0.4",
    bore_mm: Annotated[
        float | None, typer.Option("--bore", metavar="MM", help="One bore of your job, diameter at size.")
    ] = None,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Write the mesh of the coupon, a small test piece, and a form for its readings.

    Examples: `fitwright coupon --printer bench-220 --material petg -o coupon`, `fitwright coupon --bore 5.64`
    """
    from dataclasses import replace

    from planner.calibrate import coupon as coupon_of
    from planner.calibrate import write_coupon
    from planner.errors import CommandError
    from planner.job import read_material, read_printer, read_settings
    from planner.layers import estimate_part, mass_g
    from planner.output import Out

    if bore_mm is not None and not 1.0 <= bore_mm <= 30.0:
        raise CommandError(where=f"--bore {bore_mm:g}", wrong="it does not fit on the coupon", todo="give 1 to 30 mm")
    here = Path.cwd()
    machine, plastic, how = read_printer(printer, here), read_material(material, here), read_settings(settings, here)
    made = coupon_of(how.line_width_mm.value, bore_mm)
    bare = replace(how, support="none")
    took = estimate_part(made.solid, settings=bare, printer=machine, material=plastic)
    grams = mass_g(took.deposited_mm3, plastic).value
    mesh, readings = write_coupon(
        out_dir, made, printer=printer, material=material, nozzle_mm=machine.nozzle_mm.value, day=date.today()
    )
    out = Out(json_path=json, quiet=quiet)
    out.emit(
        {
            "schema": "fitwright/coupon/1",
            "mesh": str(mesh),
            "readings": str(readings),
            "duration_s": took.duration_s,
            "mass_g": grams,
            "features": [
                {"name": one.name, "kind": one.kind, "drawn_mm": one.drawn_mm, "inside_mm": one.inside_mm}
                for one in made.features
            ],
        }
    )
    say = out.console.print
    say(f"The coupon takes {took.duration_s / 60:.0f} min and {grams:.1f} g on {machine.name}, without heating up.")
    say("Print it as it stands, at 100 %, with the settings and the spool of the job, but without support.")
    say("Let it cool on the bed.")
    say(f"Mesh: {mesh}", markup=False, soft_wrap=True)
    say(f"Fill in: {readings}", markup=False, soft_wrap=True)
    say(f"Then: fitwright calibrate {readings} --printer {printer}", markup=False, soft_wrap=True)
