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
    do: DoOption = None,
    into: IntoOption = None,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Check whether every part and joint works at the job's scale, and say what to do about those that do not.

    Examples: `fitwright check job.toml`, `fitwright check job.toml --scale 90`, `fitwright check ./meshes`,
    `fitwright check job.toml --do 1 --do 3 -o new.toml`
    """
    from planner.cli.fit.do_remedies import done
    from planner.cli.load import load
    from planner.finding import Verdict
    from planner.output import Out, check_json, finding_table, notes, plural, show_remedies, verdict_line
    from planner.plan import prepare, proved_remedies
    from planner.rules import check as checked_at
    from planner.size import nearest_percent, window

    out = Out(json_path=json, quiet=quiet)
    with out.progress() as progress:
        ready = prepare(load(job, percent=scale, printer=printer, material=material, unit=unit), date.today(), progress)
        remedies = proved_remedies(ready)
        if do:
            path = done(ready.job, remedies, do, into, percent=scale, printer=printer, material=material, unit=unit)
            ready = prepare(load(path), date.today(), progress)
            remedies = proved_remedies(ready)
    checked = checked_at(ready.bound, ready.sizing.percent)
    checked = replace(checked, findings=remedies.shown(checked.findings))
    reach = window(ready.bound.rules, ready.sizing.percent)
    out.emit(check_json(checked, reach, ready.sizing.measures, remedies))
    say = out.console.print
    if do:
        say(f"wrote {path} with {', '.join(f'remedy {n}' for n in do)}; it is judged anew:", markup=False)
    say(verdict_line(checked.verdict, f"{ready.job.name} at {checked.scale_percent:.4g} %"))
    say(f"{ready.sizing.why}.", markup=False)
    for measure in ready.sizing.measures:
        room = f"{abs(measure.spare_mm):.1f} mm"
        left = f"leaves {room} of room to grow" if measure.spare_mm >= 0 else f"is {room} too small"
        say(f"{measure.name} needs {measure.percent:.1f} %; this size {left}.", markup=False)
    say(
        f"{checked.checked_n} of {checked.features_n} features checked, with {plural(len(checked.guesses), 'guess')}; "
        f"printer {ready.job.printer.name}."
    )
    bad = [f for f in checked.findings if f.verdict is not Verdict.GO]
    careful = [f for f in checked.findings if f.verdict is Verdict.GO and (everything or f.caution)]
    if bad:
        say(finding_table(bad, "\nWhat decides"))
    if careful:
        say(finding_table(careful, "\nPasses, with a caution"))
    show_remedies(out.console, remedies, ready.job)
    nearest = nearest_percent(reach.workable, checked.scale_percent)
    if not checked.verdict.passes and nearest is not None and nearest != checked.scale_percent:
        say(f"\nNearest size that works: {nearest:.4g} % (fitwright window shows what would help).", markup=False)
    notes(out.console, "Questions that could change the answer", checked.questions)
    notes(out.console, "Guesses", [f"{g.what}: {g.value} ({g.why})" for g in checked.guesses])
    say("\nThis checks shape and plan only; a licensed practitioner and local rules decide about a person.")
    raise typer.Exit(0 if checked.verdict.passes else 1)
