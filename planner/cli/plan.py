"""``fitwright plan``: plates, times, material, hardware, cuts, cost and report, for one job or several."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

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

if TYPE_CHECKING:
    from planner.planned import Failure


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
    failed: Annotated[
        int | None, typer.Option("--failed", metavar="N", help="Plate N went wrong: finish or stop, and what is left.")
    ] = None,
    at: Annotated[str | None, typer.Option("--at", metavar="TIME", help="How far it was: 3h, 2h30, 90min.")] = None,
    cause: Annotated[
        str | None,
        typer.Option(
            "--cause",
            metavar="WORD",
            help="What was seen: loose, strands, curled, scarred, shifted, starved, lump, power, spool-end, smoke.",
        ),
    ] = None,
    lost: Annotated[
        str | None, typer.Option("--lost", metavar="PIECES", help="Pieces that are lost, as jaw:1 or 'jaw:1 cap:2'.")
    ] = None,
    left_out: Annotated[
        bool, typer.Option("--left-out", help="The printer can leave the lost pieces out from now on.")
    ] = False,
    log: Annotated[
        Path | None, typer.Option("--log", metavar="CSV", help="The print log; left out: print-log.csv beside the job.")
    ] = None,
    risk: Annotated[
        bool, typer.Option("--risk", help="Also show why plates may fail, and what fewer or more of them would cost.")
    ] = False,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Plan everything: plates, schedule, estimate, material, hardware, cuts, cost and a report to open.

    Examples: `fitwright plan job.toml -o plan`, `fitwright plan r07/job.toml r11/job.toml -o chapter`,
    `fitwright plan --failed 3 --at 3h --cause loose --lost jaw:1 job.toml -o plan`
    """
    from planner.cli.load import named
    from planner.cli.output import Out
    from planner.cli.plan_failed import failed_json, log_path, show_failed, worked_out
    from planner.cli.plan_text import show, show_chapter
    from planner.cli.risk_text import show_risk
    from planner.cli.several import folder_names
    from planner.finding import Verdict
    from planner.papers import write_papers
    from planner.plan import make_plan
    from planner.planned import on_one_calendar
    from planner.prepare import prepare
    from planner.report import chapter_json, plan_json, write_plan, write_text

    out = Out(json_path=json, quiet=quiet)
    failure = _failure(failed, at, cause, lost, left_out=left_out, jobs_n=len(jobs))
    loaded = [
        named(job, several=len(jobs) > 1, scale=scale, printer=printer, material=material, unit=unit) for job in jobs
    ]
    plans, reports, papers = {}, {}, {}
    for name, job in zip(folder_names([job.name for job in loaded]), loaded, strict=True):
        with out.progress() as progress:
            made = make_plan(prepare(job, date.today(), progress), progress)
            if failure is not None:
                after = worked_out(made, failure, log_path(job, log))
                made = after.left
            plans[name] = made
    with out.progress() as progress:
        progress("one calendar for all", 0.8)
        chapter = on_one_calendar(plans)
        for step, (name, made) in enumerate(chapter.plans.items()):
            progress("writing", 0.9 + 0.1 * step / len(plans))
            folder = out_dir if len(loaded) == 1 else out_dir / name
            papers[name] = write_papers(made, folder, paper.value)
            reports[name] = write_plan(made, folder)
    if len(plans) == 1:
        made = next(iter(chapter.plans.values()))
        told = {}
        if failure is not None:
            told = {"failed": failed_json(after, failure, log_path(loaded[0], log))}
            show_failed(out.console, after, failure, log_path(loaded[0], log))
        out.emit({**plan_json(made), **told})
        show(out.console, made, next(iter(reports.values())), risk=risk)
    else:
        sums = chapter_json(chapter.plans, chapter.note)
        write_text(out_dir / "chapter.json", _text(sums))
        out.emit(sums)
        show_chapter(out.console, sums, out_dir, chapter.plans)
        for name, made in chapter.plans.items() if risk else ():
            out.console.print(f"\n{name}", markup=False)
            show_risk(out.console, made)
    if len(papers) == 1:
        out.console.print("papers: bench/papers.pdf and bench/*.html beside it", markup=False)
    for name, written in papers.items():
        if written.kept is not None:
            where = written.kept.name if len(papers) == 1 else f"{name}: {written.kept.name}"
            form = "" if written.kept == written.record else f"; the new form is {written.record.name}"
            out.console.print(f"{where} is filled in and stays{form}", markup=False)
    worst = max(
        (made.verdict for made in chapter.plans.values()), key=lambda verdict: verdict.severity, default=Verdict.GO
    )
    raise typer.Exit(0 if worst.passes else 1)


def _failure(
    failed: int | None, at: str | None, cause: str | None, lost: str | None, *, left_out: bool, jobs_n: int
) -> Failure | None:
    """Return what was told about a failed plate; None where nothing was."""
    from planner.cli.plan_failed import failure_of
    from planner.errors import CommandError

    if failed is None:
        for name, value in (("--at", at), ("--cause", cause), ("--lost", lost)):
            if value is not None:
                raise CommandError(where=name, wrong="it speaks of no plate", todo="add --failed with its number")
        return None
    if jobs_n != 1:
        raise CommandError(where="--failed", wrong=f"{jobs_n} jobs are named", todo="name the one job of the plate")
    return failure_of(failed, at, cause, lost, leaves_out=left_out)


def _text(result: object) -> str:
    """Return JSON text."""
    import json as json_module

    return json_module.dumps(result, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
