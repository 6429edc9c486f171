"""Plan: the whole job, in order; ``plan/plan.py`` is the flow at a glance.

1. ``prepare(job, today)`` reads, measures, poses and binds: everything before a scale.
2. ``make_plan(ready)`` calls every room once: parts, plates, dates, supplies, findings.
3. ``after_failure(plan, failure)`` plans what is left, ``on_one_calendar(plans)`` several jobs together.
4. ``audited(plan, program, plate)`` compares a G-code program with a plate.
"""

from planner.plan.after_failure.after_failure import AfterFailure, Failure, after_failure
from planner.plan.audited import audited
from planner.plan.chapter.chapter import on_one_calendar
from planner.plan.dates.spool_ends import ends_at, spool_lines
from planner.plan.dates.timed_plan import timing_findings
from planner.plan.parts.openings_at_size import openings_of
from planner.plan.plan import judged_settings, make_plan
from planner.plan.plan_record import CouponFirst, Plan, PlannedPart
from planner.plan.plates.bed_of_printer import brought_to
from planner.plan.plates.packed_plates import rules_of
from planner.plan.prepare import Prepared, Progress, no_progress, prepare, prepare_rebored, what_widens

__all__ = [
    "AfterFailure",
    "CouponFirst",
    "Failure",
    "Plan",
    "PlannedPart",
    "Prepared",
    "Progress",
    "after_failure",
    "audited",
    "brought_to",
    "ends_at",
    "judged_settings",
    "make_plan",
    "no_progress",
    "on_one_calendar",
    "openings_of",
    "prepare",
    "prepare_rebored",
    "rules_of",
    "spool_lines",
    "timing_findings",
    "what_widens",
]
