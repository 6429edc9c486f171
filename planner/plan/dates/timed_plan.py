"""Timing of a plan: dates for its plates on every printer of the job, and for the hands' work after them."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from planner.finding import Finding, Verdict
from planner.job import Job, printers_of
from planner.packing import Plate
from planner.plan.dates.hands_work import hand_steps
from planner.plan.dates.plate_loads import plate_loads
from planner.plan.dates.split_batches import packed_of
from planner.plan.dates.split_for_dates import parted_for_dates
from planner.plan.dates.spool_ends import feeds_of, spool_end_findings, watched_note
from planner.plan.plates.finished_plates import finished_plates
from planner.plan.plates.plate_inputs import Makings
from planner.schedule import (
    Clocks,
    Feed,
    Placed,
    PlateLoad,
    Step,
    Timetable,
    hands_min,
    leeways,
    placed_steps,
    timetable,
    ways_out,
)


def timed(
    makings: Makings,
    plates: Sequence[Plate],
    hands_before_min: int = 0,
    settled: Sequence[Placed] | None = None,
) -> Clocks | None:
    """Return the times of everything; None without a calendar.

    ``hands_before_min`` of work lie before the first plate.
    ``settled`` are the plates' runs where they were found beside other jobs'.
    """
    job = makings.job
    if job.calendar is None or job.calendar.start is None:
        return None
    printers = printers_of(job)
    loads, barred = plate_loads(makings, plates)
    table, feeds = _dated(makings, plates, loads, settled)
    steps = hand_steps(makings, table.wall)
    runs = placed_steps(steps, table.shop.attended, table.cleared_min)
    later, average = (
        placed_steps(steps, table.shop.attended, max(table.cleared_min, round(minute)))
        for minute in (table.played.p90, table.played.expected)
    )
    takes = {load.plate: load.takes_s for load in loads}
    ready = table.at(runs[-1].end) if runs and not table.unmet else None
    deadline = job.calendar.deadline
    late = ready is not None and deadline is not None and ready.date() > deadline
    return Clocks(
        table=table,
        steps=runs,
        leeways=leeways(steps),
        printing_s=sum(takes[run.plate][run.printer] for run in table.answer.placed)
        + sum(min(takes[plate].values(), default=0.0) for plate in table.unmet),
        hands_min=hands_before_min
        + hands_min(steps, {str(run.plate): run.free - run.clear for run in table.answer.placed}),
        ready=ready,
        ready_p90=table.at(later[-1].end) if later and not table.unmet else None,
        ways=ways_out(
            loads,
            job.calendar,
            printers,
            steps,
            _parted(makings, plates),
            ready=ready,
            unmet_n=len(table.unmet),
        )
        if (late or runs is None or table.unmet) and settled is None
        else (),
        barred=barred,
        feeds=feeds,
        ready_expected=table.at(average[-1].end) if average and not table.unmet else None,
        kept_percent=None if deadline is None or table.unmet else _kept_percent(table, steps, deadline),
    )


def _kept_percent(table: Timetable, steps: Sequence[Step], deadline: date) -> float:
    """Return in how many of 100 plays the hands' work ends by the deadline's day.

    Printing that ends later never ends the work sooner, so the plays in order of their finish are parted once.
    """

    def late(minute: float) -> bool:
        runs = placed_steps(steps, table.shop.attended, max(table.cleared_min, round(minute)))
        return not runs or table.at(runs[-1].end).date() > deadline

    finishes = table.played.finishes
    return 100.0 * bisect_left(finishes, True, key=late) / len(finishes) if finishes else 0.0  # noqa: FBT003


def _dated(
    makings: Makings, plates: Sequence[Plate], loads: Sequence[PlateLoad], settled: Sequence[Placed] | None
) -> tuple[Timetable, tuple[Feed, ...]]:
    """Return the calendar and the spools; a plate in which a spool ends at night is moved to where somebody is there.

    Where that leaves a plate without a time, or another spool ends at night, the first calendar stands with its hold;
    so does one that is settled with other jobs.
    """
    job, material = makings.job, makings.material
    table = timetable(loads, calendar=job.calendar, printers=printers_of(job), settled=settled)
    assert table is not None
    feeds = feeds_of(job, material, plates, table.answer.placed, table.shop)
    alone = {feed.plate for feed in feeds if feed.unattended and not feed.short_g}
    if not alone or settled is not None:
        return table, feeds
    moved = [replace(load, watched=load.plate in alone) for load in loads]
    other = timetable(moved, calendar=job.calendar, printers=printers_of(job))
    assert other is not None
    again = feeds_of(job, material, plates, other.answer.placed, other.shop)
    if len(other.unmet) > len(table.unmet) or any(feed.unattended for feed in again):
        return table, feeds
    return replace(other, notes=(*other.notes, watched_note(alone))), again


def _parted(makings: Makings, plates: Sequence[Plate]) -> tuple[PlateLoad, ...]:
    """Return the plates as they would be parted if the job allowed it; empty where it does, or that would not help."""
    calendar = makings.job.calendar
    if calendar is None or calendar.split != "never":
        return ()
    free = makings.under(replace(calendar, split="when-needed"))
    option = parted_for_dates(free, tuple(packed_of(plate) for plate in plates))
    if len(option.plates) <= len(plates):
        return ()
    return plate_loads(free, finished_plates(free, option.plates))[0]


def timing_findings(job: Job, clocks: Clocks | None) -> tuple[Finding, ...]:
    """Return what the calendar says about the deadline and about plates without a time."""
    if clocks is None or job.calendar is None:
        return ()
    found = []
    for run in clocks.table.runs:
        if run.start is None:
            found.append(_told("plan.no-time", f"plate {run.plate}", f"plate {run.plate} has no time: {run.reason}"))
    if clocks.steps is None:
        told = "the work by hand after the last plate finds no time within a year: be there longer"
        found.append(_told("plan.no-hands", "work by hand", told))
    deadline = job.calendar.deadline
    if deadline is not None and deadline < clocks.table.start.date():
        days = (clocks.table.start.date() - deadline).days
        told = (
            f"the deadline lies {days} d before the plan's start: no way keeps it; correct start or deadline in [plan]"
        )
        found.append(_told("plan.past", "deadline", told))
    fitting = job.calendar.fitting
    if deadline is not None and fitting is not None and fitting.date() > deadline:
        told = (
            f"the fitting on {fitting:%a %d %b %H:%M} lies after the deadline, {deadline:%a %d %b}: no way keeps both; "
            "correct one of them in [plan]"
        )
        found.append(_told("plan.past", "fitting", told))
    if deadline is not None and clocks.ready is not None and clocks.ready.date() > deadline:
        days = (clocks.ready.date() - deadline).days
        told = f"the device is ready on {clocks.ready:%a %d %b %H:%M}, {days} d after the deadline"
        found.append(_told("plan.late", "deadline", told))
    return (*found, *spool_end_findings(clocks))


def _told(rule: str, feature: str, why: str) -> Finding:
    """Return a caution of the calendar: it changes no verdict about the device."""
    return Finding(
        rule=rule,
        part="",
        feature=feature,
        verdict=Verdict.GO,
        why=why,
        caution=why,
        source="the job's [plan] and the estimates",
    )
