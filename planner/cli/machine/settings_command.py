"""``fitwright settings``: whether the print settings suit printer, material and parts."""

from __future__ import annotations

from datetime import date

import typer

from planner.cli.options import (
    AllOption,
    JobArgument,
    JsonOption,
    MaterialOption,
    PrinterOption,
    QuietOption,
    ScaleOption,
    UnitOption,
)


def settings(
    job: JobArgument,
    scale: ScaleOption = None,
    printer: PrinterOption = None,
    material: MaterialOption = None,
    unit: UnitOption = None,
    everything: AllOption = False,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Check the print settings against the printer, the material and the parts.

    Examples: `fitwright settings job.toml`, `fitwright settings job.toml --printer cabinet-250 --material asa`
    """
    from planner.cli.load_job import load
    from planner.finding import Verdict, worst
    from planner.output import Out, finding_list, notes, settings_json, verdict_line
    from planner.plan import judged_settings, prepare

    out = Out(json_path=json, quiet=quiet)
    with out.progress() as progress:
        ready = prepare(load(job, percent=scale, printer=printer, material=material, unit=unit), date.today(), progress)
        judged = judged_settings(ready, progress)
    findings, changes, after = judged.findings, judged.changes, judged.after
    verdict = worst(findings)
    out.emit(settings_json(findings, changes, after, printers=judged.printers, aside=judged.aside))
    say = out.console.print
    say(verdict_line(verdict, f"{ready.job.settings.name} for {judged.material} on {', '.join(judged.printers)}"))
    say(f"{len(findings)} checks at {ready.sizing.percent:g} %.")
    notes(out.console, "Not asked", [f"{name}: {why}" for name, why in judged.aside.items()])
    bad = [f for f in findings if f.verdict is not Verdict.GO]
    careful = [f for f in findings if f.verdict is Verdict.GO and (f.caution or everything)]
    if bad:
        say(finding_list(bad, "\nWhat stops the print first, then what harms a part"))
    if careful:
        say(finding_list(careful, "\nPasses, with a caution"))
    if changes:
        lines = []
        for change in changes:
            old = "not set" if change.before is None else f"{change.before:g}"
            lines.append(f"{change.key} = {change.after:.4g}   (now {old}; {change.rule})")
        notes(out.console, f"The smallest change of settings that helps; the verdict is then {after.value}", lines)
    raise typer.Exit(0 if verdict.passes else 1)
