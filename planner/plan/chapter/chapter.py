"""A chapter's plans on one schedule: no two plates on one printer at once, whosever they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from planner.job import Calendar, Job, Printer, printers_of
from planner.phrases import listed
from planner.plan.chapter.shorter_plates import shorter
from planner.plan.dates.coupon_first import after_coupon, in_turn
from planner.plan.dates.plate_dates import TimedPlates, plates_with_times
from planner.plan.dates.timed_plan import JobPlates
from planner.plan.dates.with_dates import with_plates
from planner.plan.judged import judged
from planner.plan.plan_record import Plan
from planner.plan.plates.plate_inputs import Makings
from planner.plan.stages import CouponFirst

ALIKE = ("zone", "attended", "quiet", "unattended", "people_n")
"""What must be the same in all jobs of a chapter for one schedule: it is about the place, not about a device."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """Plans by folder name, on one schedule; ``note`` says why they are not, where each keeps its own."""

    plans: Mapping[str, Plan]
    note: str = ""


def on_one_calendar(plans: Mapping[str, Plan]) -> Chapter:
    """Return plans with their plates on one schedule; those without a calendar stay as they are.

    Every job begins at its own start, or once its own coupon is measured. Plates are parted anew only where jobs are
    late beside each other. The hands' work after the last plate is placed for each job as if its hands were its own.
    """
    chapter = {name: plan for name, plan in plans.items() if plan.clocks is not None and plan.plates}
    if len(chapter) < 2:
        return Chapter(plans=plans)
    calendars = [calendar for plan in chapter.values() if (calendar := _own_job(plan).calendar) is not None]
    unlike = [key for key in ALIKE if len({getattr(calendar, key) for calendar in calendars}) > 1]
    if unlike:
        return Chapter(plans=plans, note=f"no common calendar: the jobs differ in [plan] {listed(unlike)}")
    coupons = _coupons(chapter, calendars)
    free = {first.printer: first.measured for first in sorted(coupons.values(), key=_measured) if first.measured}
    jobs = {name: _job(plan, coupons.get(name), free) for name, plan in chapter.items()}
    parted, made = _with_times(chapter, jobs)
    told = f"one calendar with {_others(len(chapter) - 1)} on the same printers"
    together = {
        name: _with_dates(plan, jobs[name].makings.job, coupons.get(name), one, told)
        for (name, plan), one in zip(parted.items(), made, strict=True)
    }
    return Chapter(plans={name: together.get(name, plan) for name, plan in plans.items()})


def _coupons(chapter: Mapping[str, Plan], calendars: Sequence[Calendar]) -> dict[str, CouponFirst]:
    """Return the coupons of all jobs, one for a printer and material, as early as the first job begins."""
    printers: dict[str, Printer] = {}
    for plan in chapter.values():
        printers |= {printer.name: printer for printer in printers_of(plan.job) if printer.name not in printers}
    firsts = {name: plan.coupon for name, plan in chapter.items() if plan.coupon is not None}
    begin = min(calendar.start for calendar in calendars if calendar.start)
    return in_turn(firsts, replace(calendars[0], start=begin), tuple(printers.values()))


def _measured(first: CouponFirst) -> datetime:
    """Return when a coupon is measured; where it has no time, before all others."""
    return first.measured or datetime.min  # noqa: DTZ901  only compared


def _job(plan: Plan, coupon: CouponFirst | None, printers_free: Mapping[str, datetime]) -> JobPlates:
    """Return a plan's plates as they get dates: from when its coupon is measured on."""
    return JobPlates(
        makings=Makings.at(plan.stage.sized, after_coupon(_own_job(plan), coupon)),
        plates=plan.plates,
        hands_before_min=coupon.hands_min if coupon else 0,
        printers_free=printers_free,
    )


def _with_times(
    plans: Mapping[str, Plan], jobs: Mapping[str, JobPlates]
) -> tuple[Mapping[str, Plan], tuple[TimedPlates, ...]]:
    """Return the plans with their dates; where some are late, with plates parted as few times as that helps most."""
    made = plates_with_times(tuple(jobs.values()), [plan.batches for plan in plans.values()])
    parted = shorter(plans, jobs) if any(_late_days(plans, made)) else None
    if parted is None:
        return plans, made
    fewer = [replace(jobs[name], plates=plan.plates) for name, plan in parted.items()]
    again = plates_with_times(fewer, [plan.batches for plan in parted.values()])
    return (parted, again) if _late_days(parted, again) < _late_days(plans, made) else (plans, made)


def _late_days(plans: Mapping[str, Plan], made: Sequence[TimedPlates]) -> tuple[int, int]:
    """Return how many plates have no time, and how many days late all jobs are."""
    unmet_n, days = 0, 0
    for plan, one in zip(plans.values(), made, strict=True):
        assert one.clocks is not None
        assert plan.job.calendar is not None
        unmet_n += len(one.clocks.table.unmet)
        if one.clocks.ready is not None and plan.job.calendar.deadline is not None:
            days += max(0, (one.clocks.ready.date() - plan.job.calendar.deadline).days)
    return unmet_n, days


def _others(others_n: int) -> str:
    """Return how many other jobs there are, in words."""
    return f"{others_n} other job{'s' if others_n > 1 else ''}"


def _own_job(plan: Plan) -> Job:
    """Return the job with its own start, not that from which on its coupon is measured."""
    return plan.stage.sized.ready.job if plan.coupon is not None else plan.job


def _with_dates(plan: Plan, job: Job, coupon: CouponFirst | None, made: TimedPlates, told: str) -> Plan:
    """Return a plan with its plates where the schedule has them, with a note on it, judged by its new dates."""
    assert made.clocks is not None
    table = replace(made.clocks.table, notes=(*made.clocks.table.notes, told))
    stage = with_plates(plan.stage, replace(made, clocks=replace(made.clocks, table=table)))
    return judged(replace(stage, job=job, coupon=coupon))
