"""Many plates made less late by moves in their order."""

from __future__ import annotations

from planner.schedule import proved
from planner.schedule.calendar.schedule_records import by_key
from planner.schedule.calendar.schedule_terms import Judge
from planner.schedule.solver.dispatch import first_calendar
from planner.schedule.solver.reordered import reordered
from tests.schedule.chapter_of_sixty import chapter, least_late_days


def test_moves_make_no_calendar_later_and_all_rules_hold() -> None:
    """Twelve recipients of five plates within eight days: never more days late, never fewer than the proved least."""
    tasks, shop, terms = chapter(12, days=8)
    judge, known = Judge(terms, shop), by_key(tasks)
    first = first_calendar(tasks, judge, 1, tries_n=3)
    found = reordered(tasks, judge, first, 1)

    assert judge.score(found, known)[0] <= judge.score(first, known)[0]
    assert judge.score(found, known)[0] >= least_late_days(tasks, shop, terms)
    assert not proved(found, tasks, shop, terms)
