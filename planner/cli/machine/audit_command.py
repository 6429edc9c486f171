"""``fitwright audit``: whether a G-code program prints what was planned."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import AllOption, JsonOption, MaterialOption, PrinterOption, QuietOption, ScaleOption


def audit(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A G-code program, as plain text.")],
    job: Annotated[Path, typer.Option("--job", metavar="JOB", help="The job.toml that the program is for.")],
    plate: Annotated[
        int | None, typer.Option("--plate", metavar="N", help="The plate; by default the one that matches best.")
    ] = None,
    scale: ScaleOption = None,
    printer: PrinterOption = None,
    material: MaterialOption = None,
    everything: AllOption = False,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Compare what a G-code program does with the plan, measured from its moves and commands.

    Examples: `fitwright audit plate-01.gcode --job job.toml`, `fitwright audit a.gcode --job job.toml --plate 2`
    """
    from planner.cli.load_job import load
    from planner.finding import Verdict, worst
    from planner.output import Out, audit_json, finding_list, verdict_line
    from planner.plan import audited, make_plan, prepare

    out = Out(json_path=json, quiet=quiet)
    with out.progress() as progress:
        ready = prepare(load(job, percent=scale, printer=printer, material=material), date.today(), progress)
        measured, meant, found = audited(make_plan(ready, progress), file, plate)
    verdict = worst(found.findings)
    out.emit(audit_json(measured, meant, found))
    say = out.console.print
    say(verdict_line(verdict, f"{file.name} against plate {meant.plate} of {ready.job.name}"))
    x, y, z = measured.size_mm
    grams = measured.deposited_mm3 / 1000.0 * meant.material.density_g_cm3.value
    say(
        f"{measured.layers_n} layers, {x:.2f} x {y:.2f} x {z:.2f} mm from line centre to line centre, "
        f"{measured.filament_mm / 1000.0:.2f} m of filament ({grams:.1f} g), {measured.duration_s / 3600.0:.2f} h "
        f"printing, up to {measured.peak_flow_mm3_s:.1f} mm3/s.",
        markup=False,
    )
    if measured.unknown_n:
        say(f"{measured.unknown_n} commands are unknown here and were ignored.")
    bad = [f for f in found.findings if f.verdict is not Verdict.GO]
    careful = [f for f in found.findings if f.verdict is Verdict.GO and (f.caution or everything)]
    if bad:
        say(finding_list(bad, "\nWhat differs"))
    if careful:
        say(finding_list(careful, "\nPasses, with a caution"))
    raise typer.Exit(0 if verdict.passes else 1)
