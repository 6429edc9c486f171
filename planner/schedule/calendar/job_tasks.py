"""What a schedule needs of every job, and the tasks, terms and place that come of it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from itertools import pairwise

from planner.job import Attended, Calendar, Printer
from planner.schedule.calendar.allowed_starts import clears_of
from planner.schedule.calendar.schedule_records import MOVES_A_DAY, Shop, Task
from planner.schedule.calendar.schedule_terms import ScheduleTerms
from planner.schedule.calendar.wall_clock import Wall
from planner.schedule.calendar.weekly_spans import HORIZON_MIN, Span, both, first_from, spans_of
from planner.schedule.hands.hand_steps import Step
from planner.schedule.risk.failure_cost import Hazard, risk_of
from planner.schedule.risk.risk_one_by_one import risk_in_turn


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateLoad:
    """What a schedule needs of a plate: its seconds on every printer that can run it.

    ``rank`` is low for what shops like to print first; ``first``: it is looked at before any other plate starts.
    ``ratio`` is real over planned time, low to high; ``moves`` whether parts that move on each other lie on it;
    ``pieces_n`` how many pieces do. ``ends``, where pieces are printed one after another: the share of the run at
    which the bed is hot, then that at which each piece is finished; ``watched`` whether somebody has to be there
    all through it; ``ratio_by`` by printer how much oftener than its common rate such a plate fails.
    """

    plate: int
    takes_s: Mapping[str, float]
    rank: int = 0
    first: bool = False
    ratio: tuple[float, float, float] = (0.7, 1.0, 1.3)
    moves: bool = False
    pieces_n: int = 1
    ends: tuple[float, ...] = ()
    watched: bool = False
    ratio_by: Mapping[str, float] = field(default_factory=dict)
    reel: str = ""
    """The material and colour that feed it, where spools are counted."""
    stood: tuple[str, datetime] | None = None
    """The printer and the start of the last plan."""

    @property
    def shortest_s(self) -> float:
        """How long it takes on the fastest printer; 0 where none takes it."""
        return min(self.takes_s.values(), default=0.0)

    def lost_s(self, printer: str, hazard: Hazard) -> float:
        """Return the time that failures are expected to cost on a printer."""
        takes = self.takes_s[printer]
        if not self.ends:
            return risk_of(takes, None, hazard).lost_s
        pieces = [takes * (end - begin) for begin, end in pairwise((0.0, *self.ends[1:]))]
        return risk_in_turn(pieces, None, hazard).lost_s


@dataclass(frozen=True, slots=True, kw_only=True)
class JobLoads:
    """One job to schedule: its plates, its calendar with a start, its printers, and the hands' work after its plates.

    ``printers_free`` says from when on a printer takes plates, where that is not at once; ``running`` when what runs
    on a printer should end; ``measured`` when the coupon is of each that has to print one first. ``reels`` are the
    spools by id, each with the colours of ``PlateLoad.reel`` that it feeds. ``hours`` are those of printers that have
    their own, ``moves_a_day`` the plates of the last plan that may move for a day late less.
    """

    loads: tuple[PlateLoad, ...]
    calendar: Calendar
    printers: tuple[Printer, ...]
    steps: tuple[Step, ...] = ()
    printers_free: Mapping[str, datetime] = field(default_factory=dict)
    running: Mapping[str, datetime] = field(default_factory=dict)
    measured: Mapping[str, datetime] = field(default_factory=dict)
    reels: Mapping[str, frozenset[str]] = field(default_factory=dict)
    hours: Mapping[str, tuple[Attended, ...]] = field(default_factory=dict)
    moves_a_day: int = MOVES_A_DAY


def wall_of(calendars: Sequence[Calendar]) -> Wall:
    """Return the clock of a schedule: it begins with the first of its jobs."""
    return Wall.of(min(calendars, key=lambda calendar: calendar.start or datetime.max))  # noqa: DTZ901  only compared


def printers_of_all(jobs: Sequence[JobLoads]) -> tuple[Printer, ...]:
    """Return the printers of all jobs; those of one name are one machine."""
    found: dict[str, Printer] = {}
    for job in jobs:
        found |= {printer.name: printer for printer in job.printers if printer.name not in found}
    return tuple(found.values())


def shop_of_all(jobs: Sequence[JobLoads]) -> Shop:
    """Return where and when the plates of all jobs may run: the place is that of the first job's calendar."""
    wall = wall_of([job.calendar for job in jobs])
    free_min: dict[str, int] = {}
    for job in jobs:
        for name, moment in job.printers_free.items():
            free_min[name] = max(free_min.get(name, 0), math.ceil(wall.minutes_to(moment)))
    shop = shop_of(jobs[0].calendar, printers_of_all(jobs), wall, free_min)
    hours = {name: week for job in jobs for name, week in job.hours.items() if name in shop.change_min and week}
    there = {name: both(spans_of(week, wall.start, wall.zone), shop.attended) for name, week in hours.items()}
    moves = min(job.moves_a_day for job in jobs)  # a chapter's, the same for all
    return _with_running(jobs, wall, replace(shop, reels_n=_reels_n(jobs, shop), hours=there, moves_a_day=moves))


def reels_of_all(jobs: Sequence[JobLoads]) -> dict[str, frozenset[str]]:
    """Return the spools of all jobs by id, each with all that it feeds: one of any colour feeds every job's."""
    found: dict[str, frozenset[str]] = {}
    for job in jobs:
        for name, feeds in job.reels.items():
            found[name] = found.get(name, frozenset()) | feeds
    return found


def _reels_n(jobs: Sequence[JobLoads], shop: Shop) -> dict[str, int]:
    """Return how many spools feed each colour, where that is fewer than printers may want one at once."""
    spools = reels_of_all(jobs)
    colours = {load.reel for job in jobs for load in job.loads} - {""}
    counts = {reel: sum(reel in feeds for feeds in spools.values()) for reel in sorted(colours)}
    return {reel: n for reel, n in counts.items() if 0 < n < len(shop.change_min)}


def _with_running(jobs: Sequence[JobLoads], wall: Wall, shop: Shop) -> Shop:
    """Return the shop with printers free once what runs on them has ended and hands have cleared the bed."""
    ends = {name: end for job in jobs for name, end in job.running.items() if name in shop.change_min}
    free, cleared = dict(shop.free_from_min), list[Span]()
    for name, end in sorted(ends.items(), key=lambda row: (row[1], row[0])):
        clears, change = clears_of(shop, name), shop.change_min[name]
        clear = first_from(clears, max(0, math.ceil(wall.minutes_to(end))))
        while clear is not None:
            meeting = [b for a, b in cleared if a < clear + change and clear < b]
            if len(meeting) < shop.people_n:
                break
            clear = first_from(clears, min(meeting))
        if clear is not None:
            cleared.append((clear, clear + change))
        free[name] = max(free.get(name, 0), HORIZON_MIN if clear is None else clear + change)
    return replace(shop, free_from_min=free, cleared=tuple(cleared))


def shop_of(
    calendar: Calendar, printers: Sequence[Printer], wall: Wall | None = None, free_min: Mapping[str, int] | None = None
) -> Shop:
    """Return where and when plates may run; without a start the calendar is no calendar.

    Where no attended hours are stated, somebody is always there. Minutes count from the ``wall`` clock's start; left
    out: from the calendar's.
    """
    start = wall.start if wall else calendar.start or datetime.min  # noqa: DTZ901  local time, asked for only with one
    return Shop(
        change_min={p.name: max(1, math.ceil(p.plate_change_s.value / 60.0)) for p in printers},
        attended=spans_of(calendar.attended, start, calendar.zone) if calendar.attended else ((0, HORIZON_MIN),),
        quiet=spans_of(calendar.quiet, start, calendar.zone),
        unattended=calendar.unattended,
        people_n=calendar.people_n or len(printers),
        free_from_min=free_min or {},
    )


def begin_min(job: JobLoads, wall: Wall) -> int:
    """Return the minute before which nothing of a job begins, printing or hands: its own start by a clock."""
    return max(0, math.ceil(wall.minutes_to(job.calendar.start))) if job.calendar.start else 0


def tasks_of(job: JobLoads, wall: Wall, number: int = 0) -> tuple[Task, ...]:
    """Return the tasks of a job's plates: one joint comes first where the job asks for it."""
    hazards = {p.name: Hazard.of(p) for p in job.printers}
    first = _joint_of(job)
    common = set(hazards).intersection(*(load.takes_s for load in job.loads if load.moves))
    least_min = begin_min(job, wall)
    return tuple(
        Task(
            job=number,
            plate=load.plate,
            takes_min={p: max(1, math.ceil(s / 60.0)) for p, s in load.takes_s.items()},
            lost_min={p: _minutes(load.lost_s(p, hazards[p].times(load.ratio_by.get(p, 1.0)))) for p in load.takes_s},
            rank=load.rank,
            after=(first,) if first is not None and load.plate != first else (),
            stay="moving" if load.moves and common and job.calendar.one_printer else "",
            ends=load.ends,
            watched=load.watched,
            not_before_min=least_min,
            stood=_stood(load, wall),
            reel=load.reel,
        )
        for load in sorted(job.loads, key=lambda load: (load.rank, load.plate))
    )


def _stood(load: PlateLoad, wall: Wall) -> tuple[int, str] | None:
    """Return where the last plan has a plate; None where it has it nowhere, or in the past."""
    if load.stood is None:
        return None
    printer, start = load.stood
    minute = wall.minutes_to(start)
    return (round(minute), printer) if minute >= 0 and minute == round(minute) else None


def terms_of(job: JobLoads, wall: Wall) -> ScheduleTerms:
    """Return what a job asks beside its plates; where one joint comes first, no other plate need be the first."""
    first_article = job.calendar.first_article and _joint_of(job) is None
    return ScheduleTerms(steps=job.steps, deadline=job.calendar.deadline, wall=wall, first_article=first_article)


def _joint_of(job: JobLoads) -> int | None:
    """Return the plate that is looked at before all others; None where the job asks for none by name."""
    if not job.calendar.first_article:
        return None
    return next((load.plate for load in job.loads if load.first), None)


def _minutes(seconds: float) -> int:
    """Return whole minutes; what never ends counts as the whole horizon."""
    return round(min(seconds / 60.0, float(HORIZON_MIN))) if math.isfinite(seconds) else HORIZON_MIN
