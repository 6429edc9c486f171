"""Once bought: how late a chapter is with one more of something, by the rules that its plan is made anew by.

A plan that is made anew moves plates of the last one only where the days that this saves are worth it, and lets no more
plates run side by side than spools can feed. A calendar that is free of both promises what nobody gets.
"""

from __future__ import annotations

from planner.schedule.calendar.job_tasks import JobLoads
from planner.schedule.calendar.timetable import Problem
from planner.schedule.solver.made_room import lateness, moved_n
from planner.schedule.solver.stays import as_it_stood
from planner.schedule.ways_out.weighed import TRIES_N, Late, MoreSpool, Planned, Situation, of_calendar

Known = list[tuple[tuple[JobLoads, ...], tuple[MoreSpool, ...], Planned, frozenset[int] | None]]
"""By jobs and more spools: their plan, and who goes short in it."""


def late_once_bought(now: Situation, known: Known) -> Late:
    """Return how many devices have no date in a situation, and how many days late the others are, at the most."""
    found = next((row for row in known if row[0] is now.jobs and row[1] == now.more_spools), None)
    if found is None:
        planned, short = (
            now.feeding(now.jobs, now.more_spools, as_planned) if now.feeding else (as_planned(now.jobs), None)
        )
        found = now.jobs, now.more_spools, planned, short
        known.append(found)
    undated, days = of_calendar(now, found[2], found[3]).late
    return undated, days + found[2].moved_days


def late_in_both(one: Late, other: Late) -> Late:
    """Return what two plans of a situation both lack at the most."""
    return max(one[0], other[0]), max(one[1], other[1])


def as_planned(jobs: tuple[JobLoads, ...]) -> Planned:
    """Return a calendar as a chapter would get it in short: plates of its last plan stay, unless moves are worth it.

    The chapter's own search costs no more by that price of moves, but it may spend fewer moves and more days: the days
    that all moves together are worth may stay late.
    """
    problem = Problem.of(jobs)
    tasks, judge = problem.tasks, problem.judge
    made, stays = problem.dispatched(TRIES_N), as_it_stood(tasks, judge)
    free = Planned(jobs=jobs, problem=problem, placed=made)
    if not stays:
        return free
    price = judge.shop.moves_a_day
    moves = moved_n(tasks, made) if made else 0
    if not made or price * lateness(stays, judge)[0] <= price * lateness(made, judge)[0] + moves:
        return Planned(jobs=jobs, problem=problem, placed=stays)
    return Planned(jobs=jobs, problem=problem, placed=made, moved_days=moves // max(1, price))
