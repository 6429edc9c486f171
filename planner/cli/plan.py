"""``fitwright plan``: plates, times, material, hardware, cuts, cost and report, for one job or several."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import (
    JsonOption,
    MaterialOption,
    PaperChoice,
    PaperOption,
    PrinterOption,
    QuietOption,
    ScaleOption,
    UnitOption,
)


def plan(
    jobs: Annotated[list[Path], typer.Argument(help="One job.toml or folder, or several for a whole chapter.")],
    out_dir: Annotated[Path, typer.Option("-o", "--out", metavar="DIR", help="Where everything is written.")] = Path(
        "plan"
    ),
    scale: ScaleOption = None,
    printer: PrinterOption = None,
    material: MaterialOption = None,
    unit: UnitOption = None,
    paper: PaperOption = PaperChoice.a4,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Plan everything: plates, schedule, estimate, material, hardware, cuts, cost and a report to open.

    Examples: `fitwright plan job.toml -o plan`, `fitwright plan r07/job.toml r11/job.toml -o chapter`
    """
    from planner.cli.load import load
    from planner.cli.output import Out
    from planner.cli.plan_text import show, show_chapter
    from planner.cli.several import folder_names
    from planner.finding import Verdict
    from planner.papers import write_papers
    from planner.plan import make_plan
    from planner.prepare import prepare
    from planner.report import chapter_json, plan_json, write_plan, write_text

    out = Out(json_path=json, quiet=quiet)
    loaded = [load(job, scale=scale, printer=printer, material=material, unit=unit) for job in jobs]
    plans, reports, papers = {}, {}, {}
    for name, job in zip(folder_names([job.name for job in loaded]), loaded, strict=True):
        with out.progress() as progress:
            made = make_plan(prepare(job, date.today(), progress), progress)
            progress("writing", 0.9)
            plans[name] = made
            folder = out_dir if len(loaded) == 1 else out_dir / name
            papers[name] = write_papers(made, folder, paper.value)
            reports[name] = write_plan(made, folder)
    if len(plans) == 1:
        made = next(iter(plans.values()))
        out.emit(plan_json(made))
        show(out.console, made, next(iter(reports.values())))
    else:
        sums = chapter_json(plans)
        write_text(out_dir / "chapter.json", _text(sums))
        out.emit(sums)
        show_chapter(out.console, sums, out_dir)
    if len(papers) == 1:
        out.console.print("papers: bench/papers.pdf and bench/*.html beside it", markup=False)
    for name, written in papers.items():
        if written.kept is not None:
            where = written.kept.name if len(papers) == 1 else f"{name}: {written.kept.name}"
            form = "" if written.kept == written.record else f"; the new form is {written.record.name}"
            out.console.print(f"{where} is filled in and stays{form}", markup=False)
    worst = max((made.verdict for made in plans.values()), key=lambda verdict: verdict.severity, default=Verdict.GO)
    raise typer.Exit(0 if worst.passes else 1)


def _text(result: object) -> str:
    """Return JSON text."""
    import json as json_module

    return json_module.dumps(result, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
