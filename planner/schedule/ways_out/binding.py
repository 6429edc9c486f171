"""Limits: what keeps a chapter's devices from being ready in time, and what one more of something would buy.

Nothing is reckoned by rule of thumb: every answer is a plan made anew with that one thing changed. The binding
constraint is the one without which fewest devices have no date, and then fewest days are late.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from planner.job import Attended
from planner.phrases import day_words, listed, plural
from planner.schedule.calendar.job_tasks import JobLoads, printers_of_all, reels_of_all
from planner.schedule.calendar.schedule_records import PrintRun
from planner.schedule.calendar.schedule_terms import last_free_min
from planner.schedule.calendar.timetable import Problem
from planner.schedule.hands.hand_steps import placed_steps
from planner.schedule.hands.people import Helper, JobHands, Staffed, hours_given, staffed
from planner.schedule.ways_out.job_changes import with_printer

SPOOL_G = 1000.0
"""A full spool; common practice, no source."""
HELPER_H = 4.0
"""The hours a week of one more helper where nobody states any; common practice, no source."""
TRIES_N = 24
"""Orders that are tried for each situation: what counts is how they compare."""
FEW_N = 1
"""Orders that are tried first: where these leave nothing late, no others could do better."""
HOUR_MIN = 60
MOST_N = 4
"""So many more printers of each kind stand for printers without end."""

Planned = tuple[tuple[JobLoads, ...], Problem, tuple[PrintRun, ...]]
"""Jobs, their plates with what each asks for, and a calendar of them."""
Late = tuple[int, int]
"""Devices without a date, and days late of the others."""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Buy:
    """One more of something: the days late that it saves over all jobs, and the devices that get a date by it."""

    what: str
    days: int
    devices: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """The binding constraint with what is short of it, and what one more of each would buy, most helpful first."""

    what: str
    short: str
    buys: tuple[Buy, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A situation planned: devices without a date and days late, who does what, and which jobs lack what."""

    late: Late
    hands: Staffed | None
    unfed: frozenset[int]
    unpaid: frozenset[int]


def limits(now: Situation) -> Limits | None:
    """Return what limits a chapter; None where every device is ready in time."""
    plans: list[Planned] = []
    today = weighed(now, plans)
    if today.late == (0, 0):
        return None
    without = [
        (weighed(other, plans).late, place, what, short)
        for place, (what, short, other) in enumerate(_without(now, today))
    ]
    least = min(without, default=None)
    alone = least is not None and least[0] < today.late
    what, short = least[2:] if least and alone else _none_alone(now, today, [row[2] for row in without])
    buys, late = [], _at_best(now, today)
    for told, other in _more(now):
        then = weighed(other, plans).late
        # a device that gets a date may bring its own days late with it; whoever has more may leave it in its box
        days, devices = max(0, late[1] - then[1]), max(0, late[0] - then[0])
        buys.append(Buy(what=told, days=days if then[0] <= late[0] else 0, devices=devices))
    buys.sort(key=lambda buy: (-buy.devices, -buy.days))
    return Limits(what=what, short=short, buys=tuple(buys))


def _at_best(now: Situation, today: Weighed) -> Late:
    """Return how late the chapter is today, by its own plan where that has fewer devices undated, or days late.

    What is saved counts from there: neither what the plan does not lack, nor what it alone lacks, is anybody's to win.
    """
    lacking = today.unpaid | {n for n, days in enumerate(now.planned_days) if days is None}
    days = sum(each or 0 for n, each in enumerate(now.planned_days) if n not in lacking)
    return (min(today.late[0], len(lacking)), min(today.late[1], days)) if now.planned_days else today.late


def _none_alone(now: Situation, today: Weighed, whats: Sequence[str]) -> tuple[str, str]:
    """Return what limits where no single thing does: several at once, or time, which nothing brings back."""
    free = replace(now, budget=None, left_g={}, helpers=(), jobs=tuple(replace(job, reels={}) for job in now.jobs))
    free = _printers(free, [printer.name for printer in printers_of_all(free.jobs)], len(free.jobs))
    if weighed(free).late < today.late:
        return "several things at once", f"none alone helps: {listed(whats)}"
    return "time", "the deadline is over, or nearer than one device takes with all the help there could be"


def weighed(now: Situation, plans: list[Planned] | None = None) -> Weighed:
    """Plan a situation: plates dispatched, hands given, what has no filament or no money left without a date.

    ``plans`` are those made before: where only people or money differ, the same jobs are not dispatched again.
    """
    known = [] if plans is None else plans
    found = next((plan for plan in known if plan[0] is now.jobs), None)
    if found is not None:
        return _weighed(now, found)
    problem = Problem.of(now.jobs)
    quick = _weighed(now, (now.jobs, problem, problem.dispatched(FEW_N)))
    if quick.late == (len(quick.unfed | quick.unpaid), 0):  # no calendar makes up for filament or money
        return quick
    known.append((now.jobs, problem, problem.dispatched(TRIES_N)))
    return _weighed(now, known[-1])


def _weighed(now: Situation, planned: Planned) -> Weighed:
    """Return what a calendar of a situation comes to."""
    _, problem, placed = planned
    free, table = last_free_min(placed), {task.job for task in problem.tasks}
    without_time = {n for n, job in enumerate(now.jobs) if len(job.loads) > sum(t.job == n for t in problem.tasks)}
    undated = without_time | (table if not placed else set())
    begins = {n: free.get(n, 0) for n in range(len(now.jobs)) if n not in undated}
    hands = None
    if now.helpers:
        asked = {
            n: JobHands(steps=now.jobs[n].steps, begin_min=begin, deadline=now.jobs[n].calendar.deadline)
            for n, begin in begins.items()
        }
        hands = staffed(asked, now.helpers, problem.shop.attended, problem.wall)
    unfed, unpaid = _unfed(now), _unpaid(now)
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


def _due(now: Situation) -> list[int]:
    """Return the jobs, the one that is due first at the head."""
    return sorted(range(len(now.jobs)), key=lambda n: (now.jobs[n].calendar.deadline or date.max, n))


def _unfed(now: Situation) -> frozenset[int]:
    """Return the jobs that lack filament: what is due first takes first."""
    left, lacking = dict(now.left_g), set[int]()
    for n in _due(now) if now.grams else ():
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
    for n in _due(now) if now.costs else ():
        if now.costs[n] > left + 1e-6:
            lacking.add(n)
        else:
            left -= now.costs[n]
    return frozenset(lacking)


def _without(now: Situation, today: Weighed) -> Iterator[tuple[str, str, Situation]]:
    """Yield what may bind, how much of it is short, and the situation in which it does not."""
    if today.unpaid:
        over = sum(now.costs) - (now.budget or 0.0)
        yield "money", f"{over:.2f} {now.currency} short", replace(now, budget=None)
    for reel in sorted({reel for need in now.grams for reel in need if reel in now.left_g}):
        missing = sum(need.get(reel, 0.0) for need in now.grams) - now.left_g[reel]
        feeds_n = sum(reel in feeds for feeds in reels_of_all(now.jobs).values())
        short = f"{missing:.0f} g short" if missing > 0 else f"{plural(feeds_n, 'spool')} for all printers"
        yield f"one colour: {reel}", short, _fed(now, reel)
    if now.helpers:
        yield "hands", _hands_short(now, today.hands), replace(now, helpers=())
    printers = printers_of_all(now.jobs)
    if len(printers) > 1:
        for printer in printers:
            only_n = sum(set(load.takes_s) == {printer.name} for job in now.jobs for load in job.loads)
            if only_n:
                short = f"{plural(only_n, 'plate')} lie on its bed alone"
                yield f"one bed: {printer.name}", short, _printers(now, [printer.name], len(now.jobs))
    hours = sum(load.shortest_s for job in now.jobs for load in job.loads) / 3600.0
    short = f"{hours:.0f} h of printing on {plural(len(printers), 'printer')}"
    yield "printer hours", short, _printers(now, [p.name for p in printers], len(now.jobs))


def _more(now: Situation) -> Iterator[tuple[str, Situation]]:
    """Yield one more hour, spool, printer and helper, and the situation with it."""
    if any(job.calendar.attended for job in now.jobs):
        yield "one more hour with somebody there, each time", _longer(now)
    for reel in sorted({reel for need in now.grams for reel in need if reel in now.left_g}):
        yield f"one more spool of {reel}", _fed(now, reel, SPOOL_G, spools_n=1)
    for printer in printers_of_all(now.jobs):
        yield f"one more printer like {printer.name}", _printers(now, [printer.name], 1)
    if now.helpers:
        hours = max((helper.week_h or HELPER_H for helper in now.helpers), default=HELPER_H)
        roles = tuple(sorted({role for helper in now.helpers for role in helper.roles} | {"maker", "tester"}))
        more = Helper(code="one more", roles=roles, week_h=hours)
        yield f"one more helper of {hours:g} h a week", replace(now, helpers=(*now.helpers, more))
        longer = tuple(replace(h, week_h=h.week_h + 1 if h.week_h is not None else None) for h in now.helpers)
        yield "one more hour a week from every helper", replace(now, helpers=longer)


def _fed(now: Situation, reel: str, more_g: float = 1e9, spools_n: int = 99) -> Situation:
    """Return a situation with more spools of a colour."""
    more = {f"(one more {n})": frozenset({reel}) for n in range(spools_n)}
    jobs = tuple(replace(job, reels={**job.reels, **more}) if job.reels else job for job in now.jobs)
    return replace(now, jobs=jobs, left_g={**now.left_g, reel: now.left_g[reel] + more_g})


def _longer(now: Situation) -> Situation:
    """Return a situation with somebody there an hour longer each time."""

    def longer(window: Attended) -> Attended:
        later = min(24 * HOUR_MIN, window.to_min + HOUR_MIN)
        return replace(window, to_min=later, from_min=max(0, window.from_min - HOUR_MIN + later - window.to_min))

    jobs = []
    for job in now.jobs:
        attended = tuple(longer(window) for window in job.calendar.attended)
        hours = {name: tuple(longer(w) for w in week) for name, week in job.hours.items()}
        jobs.append(replace(job, calendar=replace(job.calendar, attended=attended), hours=hours))
    return replace(now, jobs=tuple(jobs))


def _printers(now: Situation, names: Sequence[str], more_n: int) -> Situation:
    """Return a situation with so many more printers like each of some."""
    jobs = now.jobs
    people_n = jobs[0].calendar.people_n or len(printers_of_all(jobs))
    for name in names:
        like = next(printer for printer in printers_of_all(jobs) if printer.name == name)
        for n in range(min(more_n, MOST_N)):
            more = replace(like, name=f"{name} (one more {n})")
            jobs = tuple(with_printer(job, like, more, people_n + (more_n > 1) * 99) for job in jobs)
    return replace(now, jobs=jobs)


def _hands_short(now: Situation, hands: Staffed | None) -> str:
    """Say how many hours of which role are short by the day at which most are."""
    problem, worst = Problem.of(now.jobs), (0.0, "")
    for role in ("maker", "tester", "fitter"):
        need = 0.0
        for n in _due(now):
            job = now.jobs[n]
            need += sum(step.takes_min for step in job.steps if step.role == role) / 60.0
            if need and job.calendar.deadline is not None:
                given = hours_given(now.helpers, role, problem.shop.attended, problem.wall, job.calendar.deadline)
                told = f"{need - given:.0f} h of a {role} short by {day_words(job.calendar.deadline)}"
                told += f": {need:.0f} h of work, {given:.0f} h given"
                worst = max(worst, (need - given, told))
    if worst[1]:
        return worst[1]
    return next(iter(hands.unmet.values() if hands else ()), "") or "enough hours in all, but not when they are needed"
