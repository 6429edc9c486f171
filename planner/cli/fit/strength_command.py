"""``fitwright strength``: where the loaded parts are weakest, as a screening."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Annotated

import typer

from planner.cli.options import JobArgument, JsonOption, PrinterOption, QuietOption, ScaleOption, UnitOption


def strength(
    job: JobArgument,
    part: Annotated[str, typer.Option("--part", metavar="NAME", help="Only this part.")] = "",
    load: Annotated[float | None, typer.Option("--load", metavar="N", help="A load in place of [use] load_n.")] = None,
    elements: Annotated[
        bool, typer.Option("--elements", help="Solve by finite elements too: up to a minute a part, then kept.")
    ] = False,
    scale: ScaleOption = None,
    printer: PrinterOption = None,
    unit: UnitOption = None,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Show where each loaded part is weakest at size, and the share of its strength that the load takes there.

    The load is that of `[use] load_n`, at the tip or at `[[part]] load_at_mm` along `load_dir`. Where nobody stated
    these, it is put at the places, and in the ways, that are worst for the part. Parts are cut across the ways of their
    loads, with skin and infill apart and the layers of the chosen pose. Cuts do not see notches: `--elements` solves
    by finite elements, which do; what they say is kept, and `check` uses it. It is a screening: no figure is a load to
    count on.

    Examples: `fitwright strength job.toml`, `fitwright strength job.toml --load 100`,
    `fitwright strength job.toml --part jaw --elements --json -`
    """
    from planner.cli.load_job import load as load_job
    from planner.job import LOAD_LEAST_N, LOAD_MOST_N
    from planner.output import Out, pull_words, show_lines, strength_json, strength_lines
    from planner.plan import prepare, strengths
    from planner.rules import chosen_material, lasting_of
    from planner.scale import Scale
    from planner.strength import load_of

    if load is not None and not LOAD_LEAST_N <= load <= LOAD_MOST_N:
        raise typer.BadParameter(f"a load is from {LOAD_LEAST_N:g} to {LOAD_MOST_N:g} N", param_hint="--load")
    out = Out(json_path=json, quiet=quiet)
    with out.progress() as progress:
        stated = load_job(job, percent=scale, printer=printer, unit=unit)
        if part and part not in {one.name for one in stated.parts}:
            raise typer.BadParameter(f"no part is called {part}", param_hint="--part")
        asked = stated if load is None else replace(stated, use=replace(stated.use, load_n=load))
        ready = prepare(asked, date.today(), progress)
        scaled = Scale(ready.sizing.percent)
        solve = {one.name for one in stated.parts if part in ("", one.name)} if elements else set()
        found = [one for one in strengths(ready, scaled.factor, solve) if part in ("", one[0].part)]
    material = chosen_material(ready.job)
    lasting = lasting_of(ready.job, material) if material else ()
    out.emit(strength_json(scaled.percent, load_of(asked), found, lasting))
    title = f"{ready.job.name} at {scaled.percent:.4g} %: where it is weakest"
    hardest = pull_words(asked.use.pull_n, asked.limits.cord_share.value) if ready.movement else ""
    show_lines(out.console, strength_lines(title, load_of(asked), found, hardest, lasting))
    raise typer.Exit(0 if all(finding.verdict.passes for _, finding in found) else 1)
