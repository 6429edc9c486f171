"""Timing: dates for the plates of all jobs on one schedule, and for the hands' work after them."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from math import ceil

from planner.job import printers_of
from planner.packing import Plate
from planner.plan.dates.as_it_stands import Standing, as_stood, last_spools
from planner.plan.dates.fed_plates import fewest_short
from planner.plan.dates.hands_work import FIT, hand_steps
from planner.plan.dates.plate_hours import plate_loads
from planner.plan.dates.split_batches import packed_of
from planner.plan.dates.split_for_dates import parted_for_dates
from planner.plan.dates.spool_ends import JobToFeed, feeds_of, watched_note
from planner.plan.dates.spools_at_once import at_once
from planner.plan.plates.finished_plates import finished_plates
from planner.plan.plates.plate_inputs import PlateInputs
from planner.schedule import (
    MOVES_A_DAY,
    Clocks,
    Feed,
    JobLoads,
    PlateLoad,
    Split,
    Step,
    StepRun,
    Timetable,
    Wall,
    Way,
    hands_min,
    leeways,
    placed_steps,
    timetables,
    wall_of,
    ways_out,
)

STRONGER = {"never": ("when-needed", "when-it-pays"), "when-needed": ("when-it-pays",), "when-it-pays": ()}
"""Wishes for a split that part more plates than a job's own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobPlates:
    """A job's plates that get dates; its calendar has a start.

    ``hands_before_min`` of work lie before the first plate; ``printers_free`` says from when on printers take plates,
    ``measured`` when the coupon is of each that has to print one first; ``standing`` what the chapter's last plan says,
    and what runs; ``moves_a_day`` how many plates of that plan may move for a day late less.
    """

    inputs: PlateInputs
    plates: tuple[Plate, ...]
    hands_before_min: int = 0
    printers_free: Mapping[str, datetime] = field(default_factory=dict)
    measured: Mapping[str, datetime] = field(default_factory=dict)
    standing: Standing = field(default_factory=Standing)
    moves_a_day: int = MOVES_A_DAY


def timed(jobs: Sequence[JobPlates]) -> tuple[Clocks, ...]:
    """Return the times of everything, job by job."""
    wall = wall_of_jobs(jobs)
    asked = [_loads_of(job, wall) for job in jobs]
    loads = tuple(one for one, _ in asked)
    tables, feeds = _with_spools(jobs, loads)
    done = [placed_steps(one.steps, t.shop.attended, t.cleared_min) for one, t in zip(loads, tables, strict=True)]
    today = [_today(one, table, runs) for one, table, runs in zip(loads, tables, done, strict=True)]
    asking = [way.late or not job.standing.stood for job, way in zip(jobs, today, strict=True)]
    ways = ways_out(loads, today, _splits(jobs, loads, asking))
    return tuple(
        _clocks(job, one, barred, table, feed, runs, mine)
        for job, (one, barred), table, feed, runs, mine in zip(jobs, asked, tables, feeds, done, ways, strict=True)
    )


def wall_of_jobs(jobs: Sequence[JobPlates]) -> Wall:
    """Return the clock of the schedule of all jobs."""
    return wall_of([job.inputs.job.calendar for job in jobs if job.inputs.job.calendar is not None])


def job_loads(job: JobPlates, wall: Wall) -> JobLoads:
    """Return what a schedule needs of a job."""
    return _loads_of(job, wall)[0]


def _loads_of(job: JobPlates, wall: Wall) -> tuple[JobLoads, tuple[str, ...]]:
    """Return what a schedule needs of a job, and which printers cannot run what."""
    calendar = job.inputs.job.calendar
    assert calendar is not None
    loads, barred = plate_loads(job.inputs, job.plates)
    reels = at_once(to_feed(job))
    steps, until = _steps_left(job, wall), job.standing.until
    if until is not None and steps:  # pieces that still run are not there before
        steps = (
            replace(steps[0], not_before_min=max(steps[0].not_before_min, ceil(wall.minutes_to(until)))),
            *steps[1:],
        )
    made = JobLoads(
        loads=as_stood(loads, job.plates, job.standing, job.inputs.material.name if reels else ""),
        calendar=calendar,
        printers=printers_of(job.inputs.job),
        steps=steps,
        printers_free=job.printers_free,
        running=job.standing.running,
        measured=job.measured,
        reels=reels,
        hours=job.standing.hours,
        moves_a_day=job.moves_a_day,
    )
    return made, barred


def _steps_left(job: JobPlates, wall: Wall) -> tuple[Step, ...]:
    """Return the hands' work that is left: the fitting alone of a device that is tested, and nothing of one built."""
    stands = job.standing
    if stands.built:
        return ()
    steps = hand_steps(job.inputs, wall)
    if not stands.tested or job.plates or stands.until is not None:
        return steps
    return tuple(replace(step, after=(), wait_min=0) for step in steps if step.name == FIT)


def _with_spools(
    jobs: Sequence[JobPlates], loads: tuple[JobLoads, ...]
) -> tuple[tuple[Timetable, ...], list[tuple[Feed, ...]]]:
    """Return the schedule and the spools; a plate in which a spool ends at night is moved to where somebody is there.

    Where that leaves a plate without a time, or another spool ends at night, the first schedule stands with its hold.
    Where a plate is short, fewer spools at once are tried, down to one.
    """
    asking = [to_feed(job) for job in jobs]
    loads, tables, feeds = fewest_short(
        asking, loads, timetables, lambda made: (_feeds_of(asking, made), _unmet_n(made))
    )
    alone = [{feed.plate for feed in mine if feed.unattended and not feed.short_g} for mine in feeds]
    if not any(alone):
        return tables, feeds
    moved = [
        replace(job, loads=tuple(replace(load, watched=load.plate in mine) for load in job.loads))
        for job, mine in zip(loads, alone, strict=True)
    ]
    other = timetables(moved)
    again = _feeds_of(asking, other)
    if _unmet_n(other) > _unmet_n(tables) or any(feed.unattended for mine in again for feed in mine):
        return tables, feeds
    told = [(watched_note(mine),) if mine else () for mine in alone]
    return tuple(replace(x, notes=(*x.notes, *notes)) for x, notes in zip(other, told, strict=True)), again


def _feeds_of(asking: Sequence[JobToFeed], tables: Sequence[Timetable]) -> list[tuple[Feed, ...]]:
    """Return for every job what feeds its plates; all jobs' tables are of one schedule."""
    if not tables:
        return []
    return feeds_of(asking, [table.placed for table in tables], tables[0].wall, tables[0].shop)


def to_feed(job: JobPlates) -> JobToFeed:
    """Return what is to be fed of a job, and what feeds it."""
    return job.inputs, job.plates, job.standing.drawn, last_spools(job.plates, job.standing)


def _unmet_n(tables: Sequence[Timetable]) -> int:
    """Return how many plates have no time."""
    return sum(len(table.unmet) for table in tables)


def _today(job: JobLoads, table: Timetable, runs: Sequence[StepRun] | None) -> Way:
    """Return when a device is ready as things are."""
    ready = table.at(runs[-1].end_min) if runs and not table.unmet else None
    deadline = job.calendar.deadline
    late_days = None if ready is None or deadline is None else max(0, (ready.date() - deadline).days)
    return Way(what="as it is", ready=ready, late_days=late_days, unmet_n=len(table.unmet))


def _clocks(
    job: JobPlates,
    loads: JobLoads,
    barred: tuple[str, ...],
    table: Timetable,
    feeds: tuple[Feed, ...],
    runs: tuple[StepRun, ...] | None,
    ways: tuple[Way, ...],
) -> Clocks:
    """Return the clocks of one job."""
    takes = {load.plate: load for load in loads.loads}
    deadline, over = loads.calendar.deadline, not loads.steps and not job.plates  # only what is tested or built
    return Clocks(
        table=table,
        steps=runs,
        leeways=leeways(loads.steps),
        printing_s=sum(takes[run.plate].takes_s[run.printer] for run in table.placed)
        + sum(takes[plate].shortest_s for plate in table.unmet),
        hands_min=job.hands_before_min
        + hands_min(loads.steps, {str(run.plate): run.free_min - run.clear_min for run in table.placed}),
        ready=_today(loads, table, runs).ready,
        ready_p90=_ready_from(loads, table, table.played.p90_min),
        ready_expected=_ready_from(loads, table, table.played.expected_min),
        ways=() if over else ways,
        barred=barred,
        feeds=feeds,
        over=over,
        kept_percent=None if over or deadline is None or table.unmet else _kept_percent(loads, table, deadline),
    )


def _ready_from(loads: JobLoads, table: Timetable, minute: float) -> datetime | None:
    """Return when the device is ready where printing ends at a minute; None where it never is."""
    runs = placed_steps(loads.steps, table.shop.attended, max(table.cleared_min, round(minute)))
    return table.at(runs[-1].end_min) if runs and not table.unmet else None


def _kept_percent(loads: JobLoads, table: Timetable, deadline: date) -> float:
    """Return the percentage of simulated runs in which the hands' work ends by the deadline's day.

    Printing that ends later never ends the work sooner, so one cut through the runs, sorted by their finish, is enough.
    """

    def late(minute: float) -> bool:
        ready = _ready_from(loads, table, minute)
        return ready is None or ready.date() > deadline

    finishes = table.played.finishes_min
    return 100.0 * bisect_left(finishes, True, key=late) / len(finishes) if finishes else 0.0  # noqa: FBT003


def _splits(jobs: Sequence[JobPlates], loads: Sequence[JobLoads], asking: Sequence[bool]) -> list[Split]:
    """Return all jobs as they would be parted by stronger wishes for a split; none where that parts nothing more.

    Only those that are ``asking`` are: plates that stand in a plan that is kept are not parted to be ready sooner.
    """
    found: list[Split] = []
    for wish in ("when-needed", "when-it-pays"):
        rows = zip(jobs, loads, asking, strict=True)
        parted = tuple(_parted(job, own, wish) if asks else own for job, own, asks in rows)
        plates_n = sum(len(job.loads) for job in parted)
        known = {sum(len(job.loads) for job in some) for some in (loads, *(split.jobs for split in found))}
        if plates_n not in known:
            found.append(Split(wish=wish, jobs=parted))
    return found


def _parted(job: JobPlates, own: JobLoads, wish: str) -> JobLoads:
    """Return a job with its plates as a wish parts them; as it is where its own wish is as strong."""
    if wish not in STRONGER[own.calendar.split]:
        return own
    free = job.inputs.under(replace(own.calendar, split=wish))  # type: ignore[arg-type]  # one of the words
    option = parted_for_dates(free, tuple(packed_of(plate) for plate in job.plates))
    if len(option.plates) <= len(job.plates):
        return own
    loads: tuple[PlateLoad, ...] = plate_loads(free, finished_plates(free, option.plates))[0]
    return replace(own, loads=loads)
