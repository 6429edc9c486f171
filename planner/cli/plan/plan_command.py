"""``fitwright plan``: plates, times, material, hardware, cuts, cost and report, for one job or several."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from planner.cli.options import (
    DoOption,
    JsonOption,
    LanguageOption,
    MaterialOption,
    NewJobOption,
    PaperChoice,
    PaperOption,
    PrinterOption,
    QuietOption,
    ScaleOption,
    UnitOption,
    WorkersOption,
    spoken,
)

if TYPE_CHECKING:
    from planner.cli.plan.kept_plan import Into
    from planner.job import Job
    from planner.output import PaperName
    from planner.plan import Failure


def plan(
    jobs: Annotated[list[Path], typer.Argument(help="A job.toml or a folder, or several for a whole chapter.")],
    out_dir: Annotated[Path, typer.Option("-o", "--out", metavar="DIR", help="Folder for all results.")] = Path("plan"),
    scale: ScaleOption = None,
    printer: PrinterOption = None,
    material: MaterialOption = None,
    unit: UnitOption = None,
    paper: PaperOption = PaperChoice.a4,
    language: LanguageOption = None,
    failed: Annotated[
        int | None,
        typer.Option("--failed", metavar="N", help="Plate N failed: finish or stop, and plan the rest."),
    ] = None,
    at: Annotated[str | None, typer.Option("--at", metavar="TIME", help="When it failed: 3h, 2h30, 90min.")] = None,
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
    ledger: Annotated[
        str,
        typer.Option(
            "--ledger",
            metavar="FILE|URL",
            help="With --failed or several jobs: the ledger; left out: the one of chapter.toml.",
        ),
    ] = "",
    spool: Annotated[
        list[str] | None,
        typer.Option(
            "--spool", metavar="ID[:G]", help="With --failed and a ledger: what fed it, where several may have."
        ),
    ] = None,
    even_so: Annotated[
        bool, typer.Option("--even-so", help="With --failed: tell the ledger although it knows what speaks against it.")
    ] = False,
    risk: Annotated[
        bool, typer.Option("--risk", help="Also show why plates may fail, and what splitting them would cost.")
    ] = False,
    do: DoOption = None,
    into: NewJobOption = None,
    workers: WorkersOption = "",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Plan everything: plates, schedule, estimate, material, hardware, cuts, cost and a report to open.

    `--do N` writes remedy N of the plan into the job, those too that only the layers tell, and plans it anew.

    Examples: `fitwright plan job.toml -o plan`, `fitwright plan r07/job.toml r11/job.toml -o chapter`,
    `fitwright plan job.toml --do 2 --into new.toml`,
    `fitwright plan --failed 3 --at 3h --cause loose --lost jaw:1 job.toml -o plan`
    """
    from planner.cores import on_workers

    failure = _failure(failed, at, cause, lost, left_out=left_out, jobs_n=len(jobs))
    _remedies_alone(do, into, failed=failure is not None, jobs_n=len(jobs))
    said = _said(spool, even_so=even_so, failed=failure is not None)

    def read(path: Path) -> Job:
        from planner.cli.load_job import named

        several, told = len(jobs) > 1, spoken(language)
        return named(path, several=several, percent=scale, printer=printer, material=material, unit=unit, language=told)

    if len(jobs) > 1:
        replaced = {"--scale": scale, "--printer": printer, "--material": material, "--unit": unit}
        changed = [name for name, value in replaced.items() if value is not None]
        with on_workers(workers):
            raise typer.Exit(_together(jobs, read, out_dir, paper.value, json, ledger, changed, quiet=quiet, risk=risk))
    job = read(jobs[0])
    if failure is None:
        from planner.cli.plan.planned_anew import say_planned_anew

        say_planned_anew(job, jobs[0], ledger)

    def written(whole: Into) -> int:
        from planner.cli.fit.do_remedies import Replaced
        from planner.cli.plan.planned_folder import Asked, planned
        from planner.output import Out

        asked = Asked(
            path=jobs[0],
            job=job,
            out_dir=out_dir,
            paper=paper.value,
            risk=risk,
            do=tuple(do or ()),
            into_file=into,
            replaced=Replaced(percent=scale, printer=printer, material=material, unit=unit),
            failure=failure,
            log=log,
            ledger=ledger,
            said=said,
        )
        with on_workers(workers):
            return planned(asked, Out(json_path=json, quiet=quiet), whole)

    from planner.cli.plan.kept_plan import kept_plan
    from planner.whole_folder import whole_folder

    if failure is not None or do:
        raise typer.Exit(written(whole_folder))
    asked = {"command": "plan", "paper": paper.value, "risk": risk, "on stdout": json == "-", "quiet": quiet}
    raise typer.Exit(kept_plan(job, out_dir, json, asked, written))


def _together(
    jobs: list[Path],
    read: Callable[[Path], Job],
    out_dir: Path,
    paper: PaperName,
    json: str,
    ledger: str,
    changed: list[str],
    *,
    quiet: bool,
    risk: bool,
) -> int:
    """Plan several jobs on one calendar, from the chapter's ledger where there is one, and return the exit code."""
    from planner.cli.plan.chapter_command import state_of
    from planner.cli.plan.several import plan_together
    from planner.errors import CommandError
    from planner.output import Out

    out, state = Out(json_path=json, quiet=quiet), state_of(ledger, jobs)
    if state and changed:
        wrong = "several jobs of a chapter are named, and its ledger would keep a try as the plan"
        raise CommandError(where=changed[0], wrong=wrong, todo="write it into the jobs, or plan one alone to try it")
    return 0 if plan_together(jobs, read, out_dir, paper, out, risk=risk, state=state).passes else 1


def _said(spools: list[str] | None, *, even_so: bool, failed: bool) -> dict[str, Any]:
    """Return what the ledger is to be told of a failed plate beyond the failure; refuse it without one."""
    from planner.errors import CommandError

    if not failed and (spools or even_so):
        name = "--spool" if spools else "--even-so"
        raise CommandError(where=name, wrong="it needs a failed plate", todo="add --failed with its number")
    if not spools:
        return {"even_so": True} if even_so else {}
    from planner.cli.ledger.print_told import spools_told

    return {**spools_told(spools), **({"even_so": True} if even_so else {})}


def _remedies_alone(do: list[int] | None, into: Path | None, *, failed: bool, jobs_n: int) -> None:
    """Refuse remedies for several jobs, or after a failed plate, and a new file without any."""
    from planner.errors import CommandError

    if do and (jobs_n != 1 or failed):
        told = "a plate failed" if failed else f"{jobs_n} jobs are named"
        raise CommandError(where="--do", wrong=told, todo="name one job alone: its remedies have numbers of their own")
    if into is not None and not do:
        raise CommandError(where="--into", wrong="nothing is to be written", todo="add --do with a remedy's number")


def _failure(
    failed: int | None, at: str | None, cause: str | None, lost: str | None, *, left_out: bool, jobs_n: int
) -> Failure | None:
    """Return what was said about a failed plate; None where nothing was."""
    from planner.errors import CommandError

    if failed is None:
        for name, value in (("--at", at), ("--cause", cause), ("--lost", lost)):
            if value is not None:
                raise CommandError(where=name, wrong="it needs a failed plate", todo="add --failed with its number")
        return None
    if jobs_n != 1:
        raise CommandError(where="--failed", wrong=f"{jobs_n} jobs are named", todo="name only the job of that plate")
    from planner.cli.plan.failed_command import failure_of

    return failure_of(failed, at, cause, lost, leaves_out=left_out)
