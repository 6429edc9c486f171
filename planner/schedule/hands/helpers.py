"""Helpers: people with roles, hours a week and days away, and who does which step of which job when."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta

from planner.schedule.calendar.wall_clock import Wall
from planner.schedule.calendar.weekly_spans import HORIZON_MIN, Span, worked
from planner.schedule.hands.hand_steps import Step

BUILDS = "maker"
WEEK_DAYS = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Helper:
    """A person by code: what they do, for how many hours a week at most (None: no limit), and on which days not."""

    code: str
    roles: tuple[str, ...]
    hours_week: float | None = None
    away: frozenset[date] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class JobHands:
    """The work of one job, from the minute at which its last bed is cleared on; what is due first goes first."""

    steps: tuple[Step, ...]
    begin_min: int
    deadline: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HandRun:
    """A stretch of a step that one person does, in minutes from the schedule's start."""

    person: str
    job: int
    step: str
    start_min: int
    end_min: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Staffed:
    """Who does what when; by job the minute at which it is ready, None with the reason in ``unmet`` where never."""

    runs: tuple[HandRun, ...]
    ready_min: Mapping[int, int | None]
    unmet: Mapping[int, str] = field(default_factory=dict)


def staffed(jobs: Mapping[int, JobHands], helpers: Sequence[Helper], attended: Sequence[Span], wall: Wall) -> Staffed:
    """Return who does the work of all jobs, the one that is due first at the head (earliest due date first).

    Nobody does two things at once, works outside the attended hours, on days away, or for more hours than they give
    in a week, Monday to Sunday. A step is one person's. Who built a device does not test it. A role that nobody has is
    done by somebody who is not listed, while somebody is there.
    """
    diary = _Diary(helpers, attended, wall)
    ready: dict[int, int | None] = {}
    unmet: dict[int, str] = {}
    order = sorted(jobs, key=lambda job: (jobs[job].deadline or date.max, jobs[job].begin_min, job))
    for job in order:
        mine, builders, ends = jobs[job], set[str](), dict[str, int]()
        at: int | None = mine.begin_min
        for step in mine.steps:
            assert at is not None
            least = max([at, step.not_before_min, *(ends[name] + step.wait_min for name in step.after if name in ends)])
            at = diary.done(job, step, least, builders) if step.takes_min else least
            if at is None:
                role = "tester who did not build it" if step.role == "tester" else step.role
                unmet[job] = f"nobody has the time to {step.name}: it needs a {role}"
                break
            ends[step.name] = at
        ready[job] = at
    return Staffed(
        runs=tuple(sorted(diary.runs, key=lambda run: (run.start_min, run.person))), ready_min=ready, unmet=unmet
    )


class _Diary:
    """What everybody does when, and how many minutes of each week they have given."""

    def __init__(self, helpers: Sequence[Helper], attended: Sequence[Span], wall: Wall) -> None:
        self.helpers, self.attended, self.wall = helpers, attended, wall
        self.runs: list[HandRun] = []
        self.busy: dict[str, list[Span]] = {helper.code: [] for helper in helpers}
        self.given: dict[tuple[str, date], int] = {}
        self.days = tuple(_days(attended, wall))

    def done(self, job: int, step: Step, least: int, builders: set[str]) -> int | None:
        """Give a step to whoever is done with it first, and return when that is; None: nobody is within a year."""
        if not any(step.role in helper.roles for helper in self.helpers):
            return worked(self.attended, least, step.takes_min)
        best: tuple[int, int, str, list[Span]] | None = None
        for helper in self.helpers:
            if step.role not in helper.roles or (step.role == "tester" and helper.code in builders):
                continue
            spans = self._spans(helper, step.takes_min, least)
            load = sum(b - a for a, b in self.busy[helper.code])
            if spans and (best is None or (spans[-1][1], load, helper.code) < best[:3]):
                best = spans[-1][1], load, helper.code, spans
        if best is None:
            return None
        code, spans = best[2], best[3]
        for a, b in spans:
            self.busy[code].append((a, b))
            week = code, _monday(self.wall.at(a))
            self.given[week] = self.given.get(week, 0) + b - a
            self.runs.append(HandRun(person=code, job=job, step=step.name, start_min=a, end_min=b))
        if step.role == BUILDS:
            builders.add(code)
        return best[0]

    def _spans(self, helper: Helper, minutes: int, least: int) -> list[Span]:
        """Return when a helper would do work of a length from a minute on; empty where there is no time in a year."""
        busy, found, given = sorted(self.busy[helper.code]), list[Span](), dict[date, int]()
        for day, a, b in self.days:
            if b <= least or day in helper.away:
                continue
            monday = _monday(datetime.combine(day, time()))
            most = None if helper.hours_week is None else round(60 * helper.hours_week)
            for low, high in _free((max(a, least), b), busy):
                had = self.given.get((helper.code, monday), 0) + given.get(monday, 0)
                room = high - low if most is None else min(high - low, most - had)
                take = min(room, minutes)
                if take > 0:
                    found.append((low, low + take))
                    given[monday] = given.get(monday, 0) + take
                    minutes -= take
                if not minutes:
                    return found
        return []


def _days(attended: Sequence[Span], wall: Wall) -> Iterator[tuple[date, int, int]]:
    """Yield attended spans, cut at every midnight, with their day."""
    for a, b in attended:
        low = a
        while low < min(b, HORIZON_MIN):
            day = wall.at(low).date()
            midnight = round(wall.minutes_to(datetime.combine(day + timedelta(days=1), time())))
            high = min(b, max(midnight, low + 1))
            yield day, low, high
            low = high


def _free(span: Span, busy: Sequence[Span]) -> Iterator[Span]:
    """Yield what of a span is not busy; busy spans are in order."""
    low, high = span
    for a, b in busy:
        if b <= low or a >= high:
            continue
        if a > low:
            yield low, a
        low = max(low, b)
    if low < high:
        yield low, high


def _monday(moment: datetime) -> date:
    """Return the Monday of a moment's week."""
    return moment.date() - timedelta(days=moment.weekday())


def hours_given(helpers: Sequence[Helper], role: str, attended: Sequence[Span], wall: Wall, until: date) -> float:
    """Return the hours that people of a role give until the end of a day, by their weeks and days away."""
    weeks: dict[tuple[str, date], float] = {}
    for day, a, b in _days(attended, wall):
        if day > until:
            break
        for helper in helpers:
            if role in helper.roles and day not in helper.away:
                key = helper.code, _monday(datetime.combine(day, time()))
                most = float("inf") if helper.hours_week is None else helper.hours_week
                weeks[key] = min(most, weeks.get(key, 0.0) + (b - a) / 60.0)
    return sum(weeks.values())
