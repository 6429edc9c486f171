"""A chapter's plans on one calendar: no two plates on one printer at once, whosever they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from planner.job import Calendar, Printer, printers_of
from planner.plan.chapter.chapter_ways import chapter_ways
from planner.plan.chapter.joint_request import asked_of
from planner.plan.dates.coupon_first import in_turn
from planner.plan.dates.plate_dates import Dated, dated
from planner.plan.dates.split_batches import packed_of, parted
from planner.plan.dates.split_for_dates import lengths_s
from planner.plan.dates.spool_ends import feeds_of, watched_note
from planner.plan.dates.with_dates import with_plates
from planner.plan.judged import judged
from planner.plan.plan_record import Plan
from planner.plan.plates.finished_plates import finished_plates
from planner.plan.plates.plate_inputs import Makings
from planner.schedule import Joint, Placed, Wall, Way, joint_calendar, shop_of

ALIKE = ("zone", "attended", "quiet", "unattended", "people_n")
"""What must be the same in all jobs of a chapter for one calendar: it is about the place, not about a device."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """Plans by folder name, in one calendar; ``note`` says why they are not, where each keeps its own."""

    plans: Mapping[str, Plan]
    note: str = ""


def on_one_calendar(plans: Mapping[str, Plan]) -> Chapter:
    """Return plans with their plates in one calendar, by deadlines; those without a calendar stay as they are.

    Every job begins at its own start; where a coupon comes first, all begin once the last is measured. Every job keeps
    its own order of plates; plates are parted anew only where jobs are late beside each other. The hands' work after
    the last plate is placed for each job as if its hands were its own.
    """
    chapter = {name: plan for name, plan in plans.items() if plan.clocks is not None and plan.plates}
    if len(chapter) < 2:
        return Chapter(plans=plans)
    calendars = {name: plan.job.calendar for name, plan in chapter.items() if plan.job.calendar is not None}
    known = list(calendars.values())
    unlike = [key for key in ALIKE if len({getattr(calendar, key) for calendar in known}) > 1]
    if unlike:
        return Chapter(plans=plans, note=f"no common calendar: the jobs differ in [plan] {', '.join(unlike)}")
    begin = max(calendar.start for calendar in known if calendar.start)
    printers: dict[str, Printer] = {}
    for plan in chapter.values():
        printers |= {printer.name: printer for printer in printers_of(plan.job) if printer.name not in printers}
    firsts = {name: plan.coupon for name, plan in chapter.items() if plan.coupon is not None}
    coupons = in_turn(firsts, replace(known[0], start=begin), tuple(printers.values()))
    measured = [first.measured for first in coupons.values() if first.measured]
    start = max([begin, *measured]) if measured else min(calendar.start for calendar in known if calendar.start)
    common, shared = (
        replace(
            known[0],
            start=start,
            first_article=any(calendar.first_article for calendar in known),
            one_printer=any(calendar.one_printer for calendar in known),
        ),
        tuple(printers.values()),
    )
    makings = {name: Makings.of(plan) for name, plan in chapter.items()}
    try:
        meant, joint = _best(chapter, makings, common, shared)
        joint, watched = _watched(meant, makings, joint, common, shared)
    except ValueError as problem:
        return Chapter(plans=plans, note=f"no common calendar: {problem}")
    ways = chapter_ways([(plan, makings[name]) for name, plan in meant.items()], common, shared, joint, watched)
    together = {}
    for (name, plan), placed, mine, out in zip(meant.items(), joint.runs, watched, ways, strict=True):
        first = replace(plan, stage=replace(plan.stage, coupon=coupons.get(name)))
        told = [f"one calendar with {_others(len(chapter) - 1)} on the same printers"]
        told += [watched_note(mine)] if mine else []
        together[name] = _settled(first, makings[name], common, placed, told, out)
    return Chapter(plans={name: together.get(name, plan) for name, plan in plans.items()})


def _best(
    plans: Mapping[str, Plan], makings: Mapping[str, Makings], common: Calendar, printers: tuple[Printer, ...]
) -> tuple[Mapping[str, Plan], Joint]:
    """Return the plans and their calendar; where some are late, with plates parted as few times as that helps most."""
    wall = Wall.of(common)

    def asked(some: Mapping[str, Plan]) -> Joint:
        jobs = [asked_of(plan, makings[name], common) for name, plan in some.items()]
        return joint_calendar(jobs, shop_of(common, printers), wall)

    best, joint = plans, asked(plans)
    if not joint.late_days:
        return best, joint
    for most_s in _lengths_s(plans, common):
        smaller = {name: _parted(plan, makings[name], most_s) for name, plan in plans.items()}
        if all(len(smaller[name].plates) == len(plan.plates) for name, plan in plans.items()):
            continue
        found = asked(smaller)
        if (found.late_days, _plates_n(smaller)) < (joint.late_days, _plates_n(best)):
            best, joint = smaller, found
    return best, joint


def _watched(
    plans: Mapping[str, Plan],
    makings: Mapping[str, Makings],
    joint: Joint,
    common: Calendar,
    printers: tuple[Printer, ...],
) -> tuple[Joint, list[set[int]]]:
    """Return a calendar in which somebody is beside every plate that a spool ends in, and these plates by job.

    Where that leaves a plate without a time, or another spool ends at night, the first calendar stands with its hold.
    """
    shop = shop_of(common, printers)

    def alone(found: Joint) -> list[set[int]]:
        feeds = [
            feeds_of(plan.job, plan.material, plan.plates, placed, shop)
            for plan, placed in zip(plans.values(), found.runs, strict=True)
        ]
        return [{feed.plate for feed in some if feed.unattended and not feed.short_g} for some in feeds]

    none: list[set[int]] = [set() for _ in plans]
    plates = alone(joint)
    if not any(plates):
        return joint, none
    jobs = [
        asked_of(plan, makings[name], common, watched=mine)
        for (name, plan), mine in zip(plans.items(), plates, strict=True)
    ]
    try:
        other = joint_calendar(jobs, shop, Wall.of(common))
    except ValueError:
        return joint, none
    fewer = sum(map(len, other.runs)) < sum(map(len, joint.runs))
    return (joint, none) if fewer or any(alone(other)) else (other, plates)


def _lengths_s(plans: Mapping[str, Plan], common: Calendar) -> list[float]:
    """Return how long plates might be at most, over all jobs, longest first."""
    longest = max(batch.whole.duration_s for plan in plans.values() for batch in plan.batches)
    return sorted({most for plan in plans.values() for most in lengths_s(plan.job, common, longest)}, reverse=True)


def _plates_n(plans: Mapping[str, Plan]) -> int:
    """Return how many plates there are."""
    return sum(len(plan.plates) for plan in plans.values())


def _parted(plan: Plan, makings: Makings, most_s: float) -> Plan:
    """Return a plan with plates of at most a length, where its job parts plates at all."""
    if plan.job.calendar is None or plan.job.calendar.split == "never":
        return plan
    packed = tuple(packed_of(plate) for plate in plan.plates)
    parts, batches = parted(makings, packed, most_s=most_s)
    if len(parts) == len(packed):
        return plan
    plates = finished_plates(makings, parts)
    why = f"{len(plates)} plates instead of {len(packed)}: with the other jobs whole ones were too late"
    stage = with_plates(plan.stage, Dated(plates=plates, batches=batches, clocks=plan.clocks))
    return replace(plan, stage=replace(stage, parted_why=why))  # judged once its dates are settled


def _others(others_n: int) -> str:
    """Return how many other jobs there are, in words."""
    return f"{others_n} other job{'s' if others_n > 1 else ''}"


def _settled(
    plan: Plan,
    makings: Makings,
    common: Calendar,
    placed: Sequence[Placed],
    told: Sequence[str],
    ways: tuple[Way, ...],
) -> Plan:
    """Return a plan with its plates where the common calendar has them, with notes on it and ways out."""
    own = plan.job.calendar
    assert own is not None
    under = makings.under(replace(own, start=common.start))
    before_min = plan.coupon.hands_min if plan.coupon else 0
    made = dated(under, plan.plates, plan.batches, before_min, settled=placed)
    assert made.clocks is not None
    table = replace(made.clocks.table, notes=(*made.clocks.table.notes, *told))
    clocks = replace(made.clocks, table=table, ways=ways)
    return judged(with_plates(plan.stage, replace(made, clocks=clocks)))
