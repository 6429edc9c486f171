"""A chapter's plans on one calendar: no two plates on one printer at once, whosever they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from planner.finding import Verdict, by_severity, worst
from planner.fit import lifted
from planner.job import Calendar, Material, Printer, read_hands_on
from planner.planned import Plan
from planner.planned_coupon import in_turn
from planner.planned_hands import hand_steps
from planner.planned_loads import plate_loads, printers_of
from planner.planned_timing import TIMING_RULES, timed, timing_findings
from planner.timing import JointJob, Placed, joint_calendar, shop_of, tasks_of

ALIKE = ("attended", "quiet", "unattended", "people_n")
"""What must be the same in all jobs of a chapter for one calendar: it is about the place, not about a device."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """Plans by folder name, in one calendar; ``note`` says why they are not, where each keeps its own."""

    plans: Mapping[str, Plan]
    note: str = ""


def on_one_calendar(plans: Mapping[str, Plan]) -> Chapter:
    """Return plans with their plates in one calendar, by deadlines; those without a calendar stay as they are.

    Every job keeps its own order of plates, its coupon and its parting; the hands' work after the last plate is placed
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
    common = replace(known[0], start=start)
    try:
        runs = joint_calendar(
            [_asked(plan, replace(common, deadline=calendars[name].deadline)) for name, plan in dated.items()],
            shop_of(common, tuple(printers.values())),
            start,
        )
    except ValueError as problem:
        return Chapter(plans=plans, note=f"no common calendar: {problem}")
    together = {
        name: _settled(replace(plan, coupon=coupons.get(name)), common, placed, len(dated) - 1)
        for (name, plan), placed in zip(dated.items(), runs, strict=True)
    }
    return Chapter(plans={name: together.get(name, plan) for name, plan in plans.items()})


def _asked(plan: Plan, calendar: Calendar) -> JointJob:
    """Return what a plan asks of a common calendar."""
    printers = printers_of(plan.job)
    loads, _ = plate_loads(plan.job, _material(plan), plan.parts, plan.plates)
    assert calendar.start is not None
    return JointJob(
        tasks=tasks_of(loads, calendar, printers),
        steps=hand_steps(plan.job, plan.parts, _works_n(plan), read_hands_on(), calendar.start),
        deadline=calendar.deadline,
    )


def _settled(plan: Plan, common: Calendar, placed: Sequence[Placed], others_n: int) -> Plan:
    """Return a plan with its plates where the common calendar has them."""
    own = plan.job.calendar
    assert own is not None
    job = replace(plan.job, calendar=replace(own, start=common.start))
    before_min = plan.coupon.hands_min if plan.coupon else 0
    clocks = timed(
        job, _material(plan), plan.parts, plan.plates, plan.batches, _works_n(plan), before_min, settled=placed
    )
    assert clocks is not None
    note = f"one calendar with {others_n} other job{'s' if others_n > 1 else ''} on the same printers"
    clocks = replace(clocks, table=replace(clocks.table, notes=(*clocks.table.notes, note)), ways=())
    late = [lifted(finding, job.overrides) for finding in timing_findings(job, clocks)]
    findings = by_severity([*(f for f in plan.findings if f.rule not in TIMING_RULES), *late])
    return replace(plan, clocks=clocks, runs=clocks.table.runs, findings=findings, verdict=worst(findings))


def _material(plan: Plan) -> Material:
    """Return the material that a plan chose."""
    return next(m for m in plan.job.materials if m.name == plan.material.choice)


def _works_n(plan: Plan) -> int:
    """Return how many openings need work by hand."""
    return sum(finding.verdict is Verdict.GO_WITH_WORK for finding in plan.findings)
