"""The order in which jobs of a chapter get the printers."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from planner.finding import Finding, Verdict
from planner.job import Calendar
from planner.plan import Plan
from planner.plan.chapter.job_turns import turns, unlike_hours
from tests.plan.jobs import changed


def _with(plan: Plan, rule: str, verdict: Verdict, due: int, *, unattended: bool = False) -> Plan:
    """Return a plan with one finding alone and a calendar of its own."""
    calendar = Calendar(start=datetime(2026, 12, 1, 17, 30), deadline=date(2026, 12, due), unattended=unattended)
    job = replace(plan.job, calendar=calendar)
    finding = Finding(rule=rule, part="", feature="", verdict=verdict, why="", source="")
    return replace(changed(plan, job=job), findings=(finding,), verdict=verdict)


def test_what_can_be_built_comes_first_then_holds_then_no_gos(heron_plan: Plan) -> None:
    """By hand: two that pass and one that is only late share the first turn, other hours the second, then hold, then no-go."""
    plans = {
        "no-go": _with(heron_plan, "wall.thin", Verdict.NO_GO, 2),
        "hold": _with(heron_plan, "size.stale", Verdict.HOLD, 3),
        "late": _with(heron_plan, "plan.late", Verdict.HOLD, 9),
        "work": _with(heron_plan, "bore.tight", Verdict.GO_WITH_WORK, 8),
        "night": _with(heron_plan, "bore.tight", Verdict.GO, 20, unattended=True),
    }
    found = turns(plans)

    assert [list(turn.plans) for turn in found] == [["late", "work"], ["night"], ["hold"], ["no-go"]]
    assert [bool(turn.why) for turn in found] == [False, False, True, True]
    assert "unattended" in unlike_hours(plans)
    assert unlike_hours({name: plans[name] for name in ("late", "work")}) == ""


def test_where_nothing_passes_nobody_waits(heron_plan: Plan) -> None:
    """Two jobs on hold share a turn and are not told to wait."""
    plans = {name: _with(heron_plan, "size.stale", Verdict.HOLD, 3) for name in "ab"}

    assert [(list(turn.plans), turn.why) for turn in turns(plans)] == [(["a", "b"], "")]
