"""What a recipient waits for: what comes first, in words."""

from __future__ import annotations

from dataclasses import replace

from planner.finding import Verdict
from planner.output.chapter_page.waiting import slack_days, waits_for
from planner.plan import Plan

RUN = {"id": "R-07.2", "plate": 2, "printer": "b1", "start": "2026-12-01T08:00:00", "reason": ""}
RUNS = {"plate": "R-07.1", "printer": "b2", "end": "2026-12-01T07:00:00"}
HAND = {"person": "M-1", "step": "assemble", "start": "2026-12-03T18:00:00"}


def test_what_comes_first_is_what_it_waits_for(plan: Plan) -> None:
    """A plate that runs before the next plate, that before work by hand; a plate without a time says why."""
    assert waits_for(plan, [RUN], [HAND], [RUNS]) == "R-07.1 on b2, until Tue 1 Dec 07:00"
    assert waits_for(plan, [RUN], [HAND], []) == "R-07.2 on b1, Tue 1 Dec 08:00"
    assert waits_for(plan, [{**RUN, "start": None, "reason": "no hours"}], [], []) == "a time for R-07.2: no hours"
    assert waits_for(plan, [], [HAND], []) == "M-1: assemble, Thu 3 Dec 18:00"
    assert waits_for(plan, [], [], [], "nobody may test it") == "somebody: nobody may test it"
    held = replace(plan, verdict=Verdict.HOLD)
    assert plan.findings[0].why in waits_for(held, [RUN], [], []) or plan.findings[0].question


def test_slack_is_the_days_between_ready_and_due(plan: Plan) -> None:
    """By the calendar: the deadline's day less the day on which it is ready."""
    assert plan.clocks is not None
    assert plan.clocks.ready is not None
    assert plan.job.calendar is not None
    assert plan.job.calendar.deadline is not None
    assert slack_days(plan) == plan.job.calendar.deadline.toordinal() - plan.clocks.ready.toordinal()
