"""A chapter's plans on one calendar: no two plates on one printer at once, whosever they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace

from planner.finding import by_severity, worst
from planner.fit import lifted
from planner.job import Calendar, Printer, printers_of
from planner.planned.anew import with_plates
from planner.planned.asked import asked_of, material_of, works_of
from planner.planned.batches import batches_again, packed_of, parted
from planner.planned.chapter_ways import chapter_ways
from planner.planned.coupon import in_turn
from planner.planned.dates import TIMING_RULES, timed, timing_findings
from planner.planned.estimates import Estimates
from planner.planned.loads import on_their_printers
from planner.planned.plates import finished_plates
from planner.planned.record import Plan
from planner.planned.split import lengths_s
from planner.planned.spools import feeds_of, watched_note
from planner.timing import Joint, Placed, Wall, Way, joint_calendar, shop_of

ALIKE = ("zone", "attended", "quiet", "unattended", "people_n")
"""What must be the same in all jobs of a chapter for one calendar: it is about the place, not about a device."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """Plans by folder name, in one calendar; ``note`` says why they are not, where each keeps its own."""

    plans: Mapping[str, Plan]
    note: str = ""


def on_one_calendar(plans: Mapping[str, Plan]) -> Chapter:
    """Return plans with their plates in one calendar, by deadlines; those without a calendar stay as they are.

    The calendar begins at the latest start of all jobs. Every job keeps its own order of plates; plates are parted anew
    only where jobs are late beside each other. The hands' work after the last plate is placed
    for each job as if its hands were its own.
    """
    dated = {name: plan for name, plan in plans.items() if plan.clocks is not None and plan.plates}
    if len(dated) < 2:
        return Chapter(plans=plans)
    calendars = {name: plan.job.calendar for name, plan in dated.items() if plan.job.calendar is not None}
    known = list(calendars.values())
    unlike = [key for key in ALIKE if len({getattr(calendar, key) for calendar in known}) > 1]
    if unlike:
        return Chapter(plans=plans, note=f"no common calendar: the jobs differ in [plan] {', '.join(unlike)}")
    begin = max(calendar.start for calendar in known if calendar.start)
    printers: dict[str, Printer] = {}
    for plan in dated.values():
        printers |= {printer.name: printer for printer in printers_of(plan.job) if printer.name not in printers}
    firsts = {name: plan.coupon for name, plan in dated.items() if plan.coupon is not None}
    coupons = in_turn(firsts, replace(known[0], start=begin), tuple(printers.values()))
    start = max([begin, *(first.measured for first in coupons.values() if first.measured)])
    common, shared = (
        replace(
            known[0],
            start=start,
            first_article=any(calendar.first_article for calendar in known),
            one_printer=any(calendar.one_printer for calendar in known),
        ),
        tuple(printers.values()),
    )
    try:
        meant, joint = _best(dated, common, shared)
        joint, watched = _watched(meant, joint, common, shared)
    except ValueError as problem:
        return Chapter(plans=plans, note=f"no common calendar: {problem}")
    together = {
        name: _settled(replace(plan, coupon=coupons.get(name)), common, placed, len(dated) - 1, mine, ways)
        for (name, plan), placed, mine, ways in zip(
            meant.items(),
            joint.runs,
            watched,
            chapter_ways(tuple(meant.values()), common, shared, joint, watched),
            strict=True,
        )
    }
    return Chapter(plans={name: together.get(name, plan) for name, plan in plans.items()})


def _best(
    plans: Mapping[str, Plan], common: Calendar, printers: tuple[Printer, ...]
) -> tuple[Mapping[str, Plan], Joint]:
    """Return the plans and their calendar; where some are late, with plates parted as few times as that helps most."""
    wall = Wall.of(common)

    def asked(some: Mapping[str, Plan]) -> Joint:
        return joint_calendar([asked_of(plan, common) for plan in some.values()], shop_of(common, printers), wall)

    best, joint = plans, asked(plans)
    if not joint.late_days:
        return best, joint
    for most_s in _lengths_s(plans, common):
        smaller = {name: _parted(plan, most_s) for name, plan in plans.items()}
        if all(len(smaller[name].plates) == len(plan.plates) for name, plan in plans.items()):
            continue
        found = asked(smaller)
        if (found.late_days, _plates_n(smaller)) < (joint.late_days, _plates_n(best)):
            best, joint = smaller, found
    return best, joint


def _watched(
    plans: Mapping[str, Plan], joint: Joint, common: Calendar, printers: tuple[Printer, ...]
) -> tuple[Joint, list[set[int]]]:
    """Return a calendar in which somebody is beside every plate that a spool ends in, and these plates by job.

    Where that leaves a plate without a time, or another spool ends at night, the first calendar stands with its hold.
    """
    shop = shop_of(common, printers)

    def alone(found: Joint) -> list[set[int]]:
        feeds = [
            feeds_of(plan.job, material_of(plan), plan.plates, placed, shop)
            for plan, placed in zip(plans.values(), found.runs, strict=True)
        ]
        return [{feed.plate for feed in some if feed.unattended and not feed.short_g} for some in feeds]

    none: list[set[int]] = [set() for _ in plans]
    plates = alone(joint)
    if not any(plates):
        return joint, none
    jobs = []
    for plan, mine in zip(plans.values(), plates, strict=True):
        jobs.append(asked_of(plan, common, watched=mine))
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


def _parted(plan: Plan, most_s: float) -> Plan:
    """Return a plan with plates of at most a length, where its job parts plates at all."""
    if plan.job.calendar is None or plan.job.calendar.split == "never":
        return plan
    material = material_of(plan)
    estimates = Estimates(plan.job, material, plan.parts)
    packed = tuple(packed_of(plate) for plate in plan.plates)
    parts, batches = parted(plan.job, material, packed, estimates, most_s=most_s)
    if len(parts) == len(packed):
        return plan
    plates = finished_plates(plan.job, material, parts, estimates)
    why = f"{len(plates)} plates instead of {len(packed)}: with the other jobs whole ones were too late"
    return replace(with_plates(plan, plates, batches, plan.clocks), parted_why=why)


def _settled(
    plan: Plan,
    common: Calendar,
    placed: Sequence[Placed],
    others_n: int,
    watched: AbstractSet[int],
    ways: tuple[Way, ...],
) -> Plan:
    """Return a plan with its plates where the common calendar has them; beside the ``watched`` ones somebody is."""
    own = plan.job.calendar
    assert own is not None
    job = replace(plan.job, calendar=replace(own, start=common.start))
    before_min, material = plan.coupon.hands_min if plan.coupon else 0, material_of(plan)
    estimates = Estimates(job, material, plan.parts)
    clocks = timed(
        job,
        material,
        plan.parts,
        plan.plates,
        works_of(plan),
        estimates,
        before_min,
        settled=placed,
    )
    assert clocks is not None
    note = f"one calendar with {others_n} other job{'s' if others_n > 1 else ''} on the same printers"
    told = (note, watched_note(watched)) if watched else (note,)
    clocks = replace(clocks, table=replace(clocks.table, notes=(*clocks.table.notes, *told)), ways=ways)
    plates = on_their_printers(job, material, plan.parts, plan.plates, clocks.table.runs, estimates)
    batches = batches_again(job, material, plan.plates, plates, plan.batches, estimates)
    late = [lifted(finding, job.overrides) for finding in timing_findings(job, clocks)]
    findings = by_severity([*(f for f in plan.findings if f.rule not in TIMING_RULES), *late])
    return replace(with_plates(plan, plates, batches, clocks), findings=findings, verdict=worst(findings))
