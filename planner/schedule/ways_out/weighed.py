"""Weighed: a situation of a chapter planned in short: how many devices have no date, and how late the others are."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date

from planner.schedule.calendar.job_tasks import JobLoads, begin_min
from planner.schedule.calendar.schedule_records import PrintRun
from planner.schedule.calendar.schedule_terms import last_free_min
from planner.schedule.calendar.timetable import Problem
from planner.schedule.hands.hand_steps import placed_steps
from planner.schedule.hands.people import Helper, JobHands, Staffed, staffed

TRIES_N = 24
"""Orders that are tried for each situation: what counts is how they compare."""
FEW_N = 1
"""Orders that are tried first: where these leave nothing late, no others could do better."""

Late = tuple[int, int]
"""Devices without a date, and days late of the others."""
MoreSpool = tuple[str, str, float]
"""One more spool: its name, the material and colour that it feeds, its grams."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """Jobs, their plates with what each asks for, and a calendar of them.

    ``moved_days`` are the days late that its moves are worth: what a plan that moves fewer plates may keep.
    """

    jobs: tuple[JobLoads, ...]
    problem: Problem
    placed: tuple[PrintRun, ...]
    moved_days: int = 0


Feeding = Callable[
    [tuple[JobLoads, ...], tuple[MoreSpool, ...], Callable[[tuple[JobLoads, ...]], Planned]],
    tuple[Planned, frozenset[int]],
]
"""Plans jobs, with some more spools, so that as much as can be is fed, and tells the jobs that go short."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """All jobs with what they share.

    ``helpers``: none stands for hands that are always enough. ``grams`` is what each job needs of each colour,
    ``left_g`` what is there (a colour that is not in it is not counted); ``costs`` by job, against a ``budget``.
    """

    jobs: tuple[JobLoads, ...]
    helpers: tuple[Helper, ...] = ()
    grams: tuple[Mapping[str, float], ...] = ()
    left_g: Mapping[str, float] = field(default_factory=dict)
    costs: tuple[float, ...] = ()
    budget: float | None = None
    currency: str = "EUR"
    planned_days: tuple[int | None, ...] = ()
    """By job the days late in the chapter's own plan, None: without a date or filament; empty: no plan."""
    feeding: Feeding | None = None
    """What spools feed in a calendar; left out: grams alone are counted."""
    more_spools: tuple[MoreSpool, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A situation planned: devices without a date and days late, who does what, and which jobs lack what."""

    late: Late
    hands: Staffed | None
    unfed: frozenset[int]
    unpaid: frozenset[int]


def weighed(now: Situation, plans: list[Planned] | None = None) -> Weighed:
    """Plan a situation: plates dispatched, hands given, what has no filament or no money left without a date.

    ``plans`` are those made before: where only people or money differ, the same jobs are not dispatched again.
    """
    known = [] if plans is None else plans
    found = next((plan for plan in known if plan.jobs is now.jobs), None)
    if found is not None:
        return of_calendar(now, found)
    problem = Problem.of(now.jobs)
    quick = of_calendar(now, Planned(jobs=now.jobs, problem=problem, placed=problem.dispatched(FEW_N)))
    if quick.late == (len(quick.unfed | quick.unpaid), 0):  # no calendar makes up for filament or money
        return quick
    known.append(Planned(jobs=now.jobs, problem=problem, placed=problem.dispatched(TRIES_N)))
    return of_calendar(now, known[-1])


def of_calendar(now: Situation, planned: Planned, short: frozenset[int] | None = None) -> Weighed:
    """Return what a calendar of a situation comes to; ``short`` are the jobs that lack filament, if known."""
    problem, placed = planned.problem, planned.placed
    free, table = last_free_min(placed), {task.job for task in problem.tasks}
    without_time = {n for n, job in enumerate(now.jobs) if len(job.loads) > sum(t.job == n for t in problem.tasks)}
    undated = without_time | (table if not placed else set())
    # nothing left to print: its work begins with the job itself, not with the chapter's clock
    begins = {
        n: free[n] if n in free else begin_min(job, problem.wall) for n, job in enumerate(now.jobs) if n not in undated
    }
    hands = None
    if now.helpers:
        asked = {
            n: JobHands(steps=now.jobs[n].steps, begin_min=begin, deadline=now.jobs[n].calendar.deadline)
            for n, begin in begins.items()
        }
        hands = staffed(asked, now.helpers, problem.shop.attended, problem.wall)
    unfed, unpaid = _unfed(now) if short is None else short, _unpaid(now)
    days = 0
    for n, begin in begins.items():
        ready = hands.ready_min[n] if hands else _alone(now.jobs[n], problem, begin)
        if ready is None or n in unfed | unpaid:
            undated.add(n)
        elif (deadline := now.jobs[n].calendar.deadline) is not None:
            days += max(0, (problem.wall.at(ready).date() - deadline).days)
    return Weighed(late=(len(undated | unfed | unpaid), days), hands=hands, unfed=unfed, unpaid=unpaid)


def _alone(job: JobLoads, problem: Problem, begin: int) -> int | None:
    """Return when a job is ready whose hands are its own."""
    runs = placed_steps(job.steps, problem.shop.attended, begin)
    return None if runs is None else runs[-1].end_min if runs else begin


def due_first(now: Situation) -> list[int]:
    """Return the jobs, the one that is due first at the head."""
    return sorted(range(len(now.jobs)), key=lambda n: (now.jobs[n].calendar.deadline or date.max, n))


def _unfed(now: Situation) -> frozenset[int]:
    """Return the jobs that lack filament: what is due first takes first."""
    left, lacking = dict(now.left_g), set[int]()
    for n in due_first(now) if now.grams else ():
        need = {reel: grams for reel, grams in now.grams[n].items() if reel in left}
        if any(grams > left[reel] + 1e-6 for reel, grams in need.items()):
            lacking.add(n)
            continue
        for reel, grams in need.items():
            left[reel] -= grams
    return frozenset(lacking)


def _unpaid(now: Situation) -> frozenset[int]:
    """Return the jobs that the budget does not pay for: what is due first is paid first."""
    if now.budget is None:
        return frozenset()
    left, lacking = now.budget, set[int]()
    for n in due_first(now) if now.costs else ():
        if now.costs[n] > left + 1e-6:
            lacking.add(n)
        else:
            left -= now.costs[n]
    return frozenset(lacking)
