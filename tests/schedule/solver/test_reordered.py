"""Many plates made less late by moves in their order."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from planner.schedule import proved
from planner.schedule.calendar.schedule_records import by_key
from planner.schedule.calendar.schedule_terms import Judge
from planner.schedule.solver.dispatch import first_calendar
from planner.schedule.solver.made_room import lateness, moved_n
from planner.schedule.solver.reordered import of_many, reordered
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


def test_as_many_plates_move_as_the_days_won_are_worth() -> None:
    """None where a day is worth none; else no more than so many for each day late less, and some where that pays."""
    tasks, shop, terms = chapter(12, days=8)
    terms = [replace(term, deadline=term.deadline - timedelta(days=5)) for term in terms if term.deadline]
    judge = Judge(terms, shop)
    stays = first_calendar(tasks, judge, 1, tries_n=3)
    where = {run.key: (run.start_min, run.printer) for run in stays}
    tasks = [replace(task, stood=where[task.key]) for task in tasks]
    best, moved = first_calendar(tasks, judge, 2, tries_n=3), list[int]()
    for worth in (0, 30):
        judge = Judge(terms, replace(shop, moves_a_day=worth))
        found = of_many(tasks, judge, best, stays, 1)
        won_days = lateness(stays, judge)[0] - lateness(found, judge)[0]
        moved.append(moved_n(tasks, found))

        assert moved[-1] <= worth * won_days
        assert not proved(found, tasks, shop, terms)
    assert lateness(stays, judge)[0]
    assert moved[0] == 0 < moved[-1]
