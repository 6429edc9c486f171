"""``fitwright move``: how far the joints go, how much cord that takes, how hard one must pull."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from planner.cli.options import JobArgument, JsonOption, PrinterOption, QuietOption, ScaleOption, UnitOption

if TYPE_CHECKING:
    from planner.job import Job


def move(
    job: JobArgument,
    scale: ScaleOption = None,
    printer: PrinterOption = None,
    unit: UnitOption = None,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Show how far each joint goes at size, what stops it, how much cord that takes and how hard one must pull.

    Parts that are drawn in place stand as drawn; others are put together by the bores that hardware joins, or as
    `[[place]]` says. `[[joint]]` states what ought to be reached, `[[cord]]` the way of a cord, `[drive]` what pulls.

    Examples: `fitwright move job.toml`, `fitwright move job.toml --scale 90`, `fitwright move job.toml --json -`
    """
    from planner.cli.kept_answer import answer
    from planner.cli.load_job import load

    read = load(job, percent=scale, printer=printer, unit=unit)
    asked = {"command": "move", "path": job, "quiet": quiet}
    answer(read, asked, lambda: _said(read, json, quiet), json)


def _said(read: Job, json: str, quiet: bool) -> int:
    """Tell how a job that was read moves, and return the exit code."""
    from planner.mechanism import still
    from planner.output import Out, move_json, move_lines, show_lines
    from planner.plan import prepare_moves
    from planner.rules import by_severity
    from planner.scale import Scale

    out = Out(json_path=json, quiet=quiet)
    with out.progress() as progress:
        ready = prepare_moves(read, date.today(), progress)
        scaled, moves = Scale(ready.sizing.percent), ready.movement
        findings = by_severity(rule.at(scaled.factor) for rule in ready.rules)
        found = still(scaled) if moves is None else moves.at(scaled.factor)
    out.emit(move_json(found, findings))
    title = f"{ready.job.name} at {ready.sizing.percent:.4g} %: how it moves"
    show_lines(out.console, move_lines(title, found, findings))
    return 0 if all(finding.verdict.passes for finding in findings) else 1
