"""Timetable: plates become tasks, tasks a calendar, and a calendar dates that a person can keep."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from itertools import pairwise

from planner.job import Calendar, Printer
from planner.packing import Run
from planner.schedule.calendar.allowed_starts import longest_run_min
from planner.schedule.calendar.first_start import tonight
from planner.schedule.calendar.task import Answer, Placed, Shop, Task, finish_of
from planner.schedule.calendar.wall_clock import Wall
from planner.schedule.calendar.weekly_spans import HORIZON_MIN, spans_of
from planner.schedule.risk.checkpoint import Marks
from planner.schedule.risk.hazard import Hazard, risk_of
from planner.schedule.risk.risk_in_turn import risk_in_turn
from planner.schedule.risk.simulate import Chance, Played, played
from planner.schedule.solver.calendar_proof import proved
from planner.schedule.solver.solve import SEED, solved, unmet


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateLoad:
    """What a calendar needs of a plate: its seconds on every printer that can run it.

    ``ratio`` is real over planned time, low to high; ``moves`` whether parts that move on each other lie on it;
    ``pieces_n`` how many pieces do. ``ends``, where pieces are printed one after another: the share of the run at
    which the bed is hot, then that at which each piece is finished; ``watched`` whether somebody has to be there
    all through it; ``ratio_by`` by printer how much oftener than its common rate such a plate fails.
    """

    plate: int
    takes_s: Mapping[str, float]
    rank: int = 0
    ratio: tuple[float, float, float] = (0.7, 1.0, 1.3)
    moves: bool = False
    pieces_n: int = 1
    ends: tuple[float, ...] = ()
    watched: bool = False
    ratio_by: Mapping[str, float] = field(default_factory=dict)

    def lost_s(self, printer: str, hazard: Hazard) -> float:
        """Return the time that failures are expected to cost on a printer."""
        takes = self.takes_s[printer]
        if not self.ends:
            return risk_of(takes, None, hazard).lost_s
        pieces = [takes * (end - begin) for begin, end in pairwise((0.0, *self.ends[1:]))]
        return risk_in_turn(pieces, None, hazard).lost_s


@dataclass(frozen=True, slots=True, kw_only=True)
class Timetable:
    """When every plate runs.

    ``finish`` is the planned last end; ``played`` what failures and slow plates make of it. ``unmet`` are plates
    without a time. ``tonight`` is one line about the first start.
    """

    wall: Wall
    runs: tuple[Run, ...]
    answer: Answer
    shop: Shop
    tasks: tuple[Task, ...]
    unmet: tuple[int, ...]
    played: Played
    tonight: str
    notes: tuple[str, ...]

    def at(self, minute: float) -> datetime:
        """Return a minute of the calendar as a date."""
        return self.wall.at(minute)

    @property
    def start(self) -> datetime:
        """When the calendar begins."""
        return self.wall.start

    @property
    def finish(self) -> datetime | None:
        """The last planned end; None where no plate has a time."""
        return max((run.end for run in self.runs if run.end), default=None)

    @property
    def cleared_min(self) -> int:
        """When the last bed is cleared, in minutes from the start."""
        return max((run.free for run in self.answer.placed), default=0)


def shop_of(calendar: Calendar, printers: Sequence[Printer]) -> Shop:
    """Return where and when plates may run; without a start the calendar is no calendar.

    Where no attended hours are stated, somebody is always there.
    """
    start = calendar.start or datetime.min  # noqa: DTZ901  local time, asked for only with a start
    return Shop(
        change_min={p.name: max(1, math.ceil(p.plate_change_s.value / 60.0)) for p in printers},
        attended=spans_of(calendar.attended, start, calendar.zone) if calendar.attended else ((0, HORIZON_MIN),),
        quiet=spans_of(calendar.quiet, start, calendar.zone),
        unattended=calendar.unattended,
        people_n=calendar.people_n or len(printers),
    )


def tasks_of(loads: Sequence[PlateLoad], calendar: Calendar, printers: Sequence[Printer]) -> tuple[Task, ...]:
    """Return the tasks of plates: the first article before all others, what moves on one printer."""
    hazards = {p.name: Hazard.of(p) for p in printers}
    ordered = sorted(loads, key=lambda load: (load.rank, load.plate))
    telling = ordered[:1] if len(printers) == 1 else sorted(ordered, key=_telling)[:1]
    first = telling[0].plate if telling and calendar.first_article else None
    common = set(hazards).intersection(*(load.takes_s for load in loads if load.moves))
    return tuple(
        Task(
            plate=load.plate,
            takes_min={p: max(1, math.ceil(s / 60.0)) for p, s in load.takes_s.items()},
            lost_min={p: _minutes(load.lost_s(p, hazards[p].times(load.ratio_by.get(p, 1.0)))) for p in load.takes_s},
            rank=load.rank,
            after=(first,) if first is not None and load.plate != first else (),
            stay="moving" if load.moves and common and calendar.one_printer else "",
            ends=load.ends,
            watched=load.watched,
        )
        for load in ordered
    )


def _telling(load: PlateLoad) -> tuple[int, float, int]:
    """Return what the first article is chosen by on several printers: the lowest rank, then the shortest run.

    The other printers stand still until it is looked at; on one printer the plates keep the order of their numbers.
    """
    return load.rank, min(load.takes_s.values(), default=math.inf), load.plate


def timetable(
    loads: Sequence[PlateLoad],
    *,
    calendar: Calendar | None,
    printers: Sequence[Printer],
    settled: Sequence[Placed] | None = None,
) -> Timetable | None:
    """Return the best calendar found; None without a calendar or a start.

    ``settled`` are runs that were found beside other jobs' on the same printers: they are proved and played. A plate
    that no printer may run within the rules gets no time, and the reason says so; the others get theirs.
    """
    if calendar is None or calendar.start is None:
        return None
    shop, wall = shop_of(calendar, printers), Wall.of(calendar)
    left_out = unmet(tasks_of(loads, calendar, printers), shop)
    # the first article is one of those that have a time: what waits for a plate without one would wait for nothing
    tasks = tasks_of([load for load in loads if load.plate not in left_out], calendar, printers)
    answer, meant, notes = _solved(tasks, shop)
    if settled is not None:  # what was found alone stays as the bound: beside other jobs nothing is ready sooner
        meant = tuple(task for task in tasks if task.plate in {run.plate for run in settled})
        finish = finish_of(settled, {task.plate: task for task in meant})
        answer = Answer(placed=tuple(settled), finish=finish, bound=min(finish, answer.bound))
    left_out = (*left_out, *(t.plate for t in tasks if t.plate not in {m.plate for m in meant}))
    wrong = proved(answer.placed, meant, shop)
    if wrong:
        raise AssertionError(f"a calendar does not hold: {wrong[0]}")  # never shown: the solver keeps the same rules
    by_plate = {load.plate: load for load in loads}
    chances = {
        p.name: Chance(per_hour=p.failure_per_hour.value, ratio=_ratio(loads), goes_on=Marks.of(p)) for p in printers
    }
    known = {task.plate: task for task in meant}
    return Timetable(
        wall=wall,
        runs=_runs(answer.placed, by_plate, left_out, calendar, shop, wall),
        answer=answer,
        shop=shop,
        tasks=meant,
        unmet=left_out,
        played=played(answer.placed, known, shop, chances, SEED, {n: load.ratio_by for n, load in by_plate.items()}),
        tonight=tonight(answer.placed, known, shop, wall),
        notes=notes,
    )


def _solved(tasks: tuple[Task, ...], shop: Shop) -> tuple[Answer, tuple[Task, ...], tuple[str, ...]]:
    """Solve; where there is no answer give up staying together first, then the last plates of the year."""
    notes: list[str] = []
    while True:
        try:
            return solved(tasks, shop), tasks, tuple(notes)
        except ValueError:
            if any(task.stay for task in tasks):
                notes.append("parts that move on each other are printed on several printers: none has time for all")
                tasks = tuple(replace(task, stay="") for task in tasks)
            else:
                tasks = tasks[: len(tasks) - max(1, len(tasks) // 10)]


def _ratio(loads: Sequence[PlateLoad]) -> tuple[float, float, float]:
    """Return real over planned time, the same for all plates of a job."""
    return loads[0].ratio if loads else (1.0, 1.0, 1.0)


def _minutes(seconds: float) -> int:
    """Return whole minutes; what never ends counts as the whole horizon."""
    return round(min(seconds / 60.0, float(HORIZON_MIN))) if math.isfinite(seconds) else HORIZON_MIN


def _runs(
    placed: Sequence[Placed],
    loads: Mapping[int, PlateLoad],
    left_out: Sequence[int],
    calendar: Calendar,
    shop: Shop,
    wall: Wall,
) -> tuple[Run, ...]:
    """Return the runs in the order of their start, then the plates without a time."""
    runs = []
    for each in placed:
        start = wall.at(each.start)
        end = wall.after(timedelta(minutes=each.start, seconds=round(loads[each.plate].takes_s[each.printer])))
        late = ""
        if calendar.deadline is not None and end.date() > calendar.deadline:
            late = f"late: it ends {(end.date() - calendar.deadline).days} days after the deadline"
        runs.append(Run(plate=each.plate, printer=each.printer, start=start, end=end, reason=late))
    longest = longest_run_min(shop)
    for plate in left_out:
        takes = loads[plate].takes_s
        if not takes:
            reason = "no printer of the job takes it"
        elif min(takes.values()) <= 60.0 * longest:
            reason = "there is no time for it within a year: be there longer, or have more printers"
        else:
            what = "time without quiet hours" if shop.unattended else "attended window"
            ways = "split the plate, " if loads[plate].pieces_n > 1 else "it is one piece, so no split helps: "
            reason = (
                f"it takes {min(takes.values()) / 3600:.1f} h and the longest {what} is {longest / 60:.1f} h: "
                f"{ways}use a faster printer, or have a rule that allows unattended printing"
            )
        runs.append(Run(plate=plate, printer=min(takes, default=""), start=None, end=None, reason=reason))
    return tuple(runs)
