"""Moved: what a new plan has on another day than the last one, and the event that it follows from."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

from planner.ledger import as_planned, failures_since, gates_since, planned_jobs
from planner.phrases import day_words, moment
from planner.plan import Plan

if TYPE_CHECKING:
    from sqlalchemy.engine import Engine

Row = dict[str, Any]


def moved(engine: Engine, plans: Sequence[Plan], now: datetime) -> list[Row]:
    """Return the jobs whose last plate ends on another day, or that are new, against the last plan kept."""
    known, rows = planned_jobs(engine), list[Row]()
    if not known:
        return rows
    news = _news(engine, plans, known, now)
    for plan in plans:
        code = plan.job.recipient
        ends = [run.end for run in plan.runs if run.end is not None]
        if code not in known:
            if ends:
                told = f"printed by {day_words(max(ends))}"
                rows.append({"job": code, "was": "not planned", "now": told, "why": "it came in"})
            continue
        before = [row["end"] for row in as_planned(engine, code) if row["end"] is not None]
        was, then = max(before, default=None), max(ends, default=None)
        if was is None or then is None or was.date() == then.date():
            continue
        rows.append(
            {
                "job": code,
                "was": f"printed by {day_words(was)}",
                "now": f"printed by {day_words(then)}",
                "why": news.get(code)
                or next(iter(news.values()), "the jobs, the printers or the hours are others now"),
            }
        )
    return rows


def _news(engine: Engine, plans: Sequence[Plan], known: dict[str, str], now: datetime) -> dict[str, str]:
    """Return by job what happened since the last plan.

    A plate failed, a printer was blocked or takes plates again, a job came in, a start was missed.

    Of a printer's gate the jobs know whose plates the last plan had on it; a gate that is open again may move any.
    """
    news = dict[str, str]()
    for row in failures_since(engine):
        code = str(row["plate"]).rsplit(".", 1)[0]
        news.setdefault(code, f"{row['plate']} failed on {row['printer']} ({row['cause']})")
    gates = gates_since(engine)
    shut = {name: f"{name} takes no plates ({why})" for name, (kind, why) in gates.items() if kind == "blocked"}
    for plan in plans:
        code = plan.job.recipient
        mine = [shut[row["printer"]] for row in as_planned(engine, code) if row["printer"] in shut]
        if mine:
            news.setdefault(code, mine[0])
    for name, (kind, _) in gates.items():
        told = shut[name] if kind == "blocked" else f"{name} takes plates again"
        news.setdefault(name, told)  # under the printer's name: it may have moved others, too
    for plan in plans:
        code = plan.job.recipient
        if code not in known:
            news.setdefault(code, f"{code} came in")
        missed = [row for row in as_planned(engine, code) if row["start"] is not None and row["start"] < now]
        if missed:
            told = f"{missed[0]['id']} was to start on {moment(missed[0]['start'])}, and nobody said that it runs"
            news.setdefault(code, told)
    return news
