"""Limits: what keeps a chapter's devices from being ready in time, and what one more of something would buy.

Nothing is reckoned by rule of thumb: every answer is a plan made anew with that one thing changed. The binding
constraint is the one without which fewest devices have no date, and then fewest days are late.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from planner.job import Attended
from planner.phrases import day_words, listed, plural
from planner.schedule.calendar.job_tasks import printers_of_all, reels_of_all
from planner.schedule.calendar.timetable import Problem
from planner.schedule.hands.people import Helper, Staffed, hours_given
from planner.schedule.ways_out.job_changes import with_printer
from planner.schedule.ways_out.once_bought import Known, late_in_both, late_once_bought
from planner.schedule.ways_out.weighed import Late, Planned, Situation, Weighed, due_first, weighed

SPOOL_G = 1000.0
"""A full spool; common practice, no source."""
HELPER_H = 4.0
"""The hours a week of one more helper where nobody states any; common practice, no source."""
HOUR_MIN = 60
MOST_N = 4
"""So many more printers of each kind stand for printers without end."""


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
    buys, late, anew = [], _at_best(now, today), Known()
    for told, other in _more(now):
        then = weighed(other, plans).late
        if then != late:  # it may help: is that so in the plan that would be made?
            then = late_in_both(then, late_once_bought(other, anew))
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
    spools = tuple((name, reel, more_g) for name in more)
    return replace(now, jobs=jobs, left_g={**now.left_g, reel: now.left_g[reel] + more_g}, more_spools=spools)


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
        for n in due_first(now):
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
