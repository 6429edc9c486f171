"""``fitwright plan --failed N``: what to do with a plate that went wrong, and what is left to print."""

from __future__ import annotations

import re
from pathlib import Path

from rich.console import Console

from planner.calibrate import append_print, lost_pieces
from planner.errors import CommandError, ProfileError
from planner.job import Job
from planner.phrases import listed
from planner.plan import AfterFailure, Failure, Plan, after_failure

TIME = re.compile(r"(?:(?P<h>\d+(?:\.\d+)?)\s*h)?\s*(?:(?P<min>\d+)\s*(?:min|m)?)?")
LOG = "print-log.csv"


def failure_of(plate: int, at: str | None, cause: str | None, lost: str | None, *, leaves_out: bool) -> Failure:
    """Return what a person said about a failed plate.

    Raises
    ------
    CommandError
        Where something is missing or cannot be read.
    """
    if at is None:
        raise CommandError(where="--at", wrong="it is missing", todo="say how long it had run, as --at 3h or 2h30")
    if cause is None:
        raise CommandError(where="--cause", wrong="it is missing", todo="say what you saw, as --cause loose")
    try:
        pieces = dict(lost_pieces(lost or "", "--lost"))
    except ProfileError as error:
        raise CommandError(where=error.where, wrong=error.wrong, todo=error.todo) from None
    return Failure(plate=plate, at_s=seconds_of(at), cause=cause, lost=pieces, leaves_out=leaves_out)


def seconds_of(text: str) -> float:
    """Return seconds for ``3h``, ``2h30``, ``90min`` or ``3:30``.

    >>> seconds_of("2h30"), seconds_of("90min"), seconds_of("3:30"), seconds_of("0.5h")
    (9000.0, 5400.0, 12600.0, 1800.0)
    """
    plain = re.sub(r"^(\d+):(\d\d)$", r"\1h\2", text.strip().lower())
    found = TIME.fullmatch(plain)
    if not plain or found is None or plain.isdecimal():
        raise CommandError(where="--at", wrong=f"'{text}' is not a time", todo="write it as 3h, 2h30 or 90min")
    return float(found["h"] or 0) * 3600.0 + float(found["min"] or 0) * 60.0


def log_path(job: Job, log: Path | None) -> Path:
    """Return the print log: the one named, else that beside the job."""
    return log or (job.path if job.path.is_dir() else job.path.parent) / LOG


def worked_out(plan: Plan, failure: Failure, log: Path) -> AfterFailure:
    """Judge a failure, plan what is left, and write the log's line."""
    after = after_failure(plan, failure)
    append_print(log, after.logged)
    return after


def show_failed(console: Console, after: AfterFailure, failure: Failure, log: Path) -> None:
    """Print whether to finish or stop, what that costs, and what is printed again."""
    mishap = after.mishap
    console.print(f"[bold]{mishap.does.upper()}[/] plate {failure.plate}: {mishap.rule.about}", highlight=False)
    console.print(f" - {mishap.why} ({mishap.rule.source})", markup=False)
    what = "the unfinished pieces" if after.whole else "the whole plate"
    console.print(
        f" - average time from now: {mishap.finish_s / 3600:.1f} h to finish and reprint the lost pieces, "
        f"{mishap.stop_s / 3600:.1f} h to stop and reprint {what}",
        markup=False,
    )
    if mishap.if_left_out:
        console.print(
            f" - if the printer can skip the lost pieces from now on, let it go on (add --left-out): "
            f"saves {(mishap.stop_s - mishap.finish_s) / 3600:.1f} h",
            markup=False,
        )
    if after.whole:
        whole = listed(f"{part} x {n}" for part, n in after.whole.items())
        console.print(f" - finished before the failure, so kept: {whole} (printed one after another)", markup=False)
    again = listed(f"{part} x {n}" for part, n in after.again.items()) if after.again else "nothing"
    console.print(f" - to print again: {again}", markup=False)
    if after.done:
        console.print(
            f" - counted as done: {listed(f'plate {n}' for n in after.done)}",
            markup=False,
        )
    console.print(f" - added to {log}, which fitwright calibrate --log reads\n", markup=False, soft_wrap=True)


def failed_json(after: AfterFailure, failure: Failure, log: Path) -> dict[str, object]:
    """Return the judgement as plain JSON types, to stand beside the plan of what is left."""
    mishap = after.mishap
    return {
        "plate": failure.plate,
        "at_s": failure.at_s,
        "cause": failure.cause,
        "does": mishap.does,
        "why": mishap.why,
        "source": mishap.rule.source,
        "finish_s": mishap.finish_s,
        "stop_s": mishap.stop_s,
        "finish_if_left_out": mishap.if_left_out,
        "again": dict(after.again),
        "whole": dict(after.whole),
        "done": list(after.done),
        "log": str(log),
    }
