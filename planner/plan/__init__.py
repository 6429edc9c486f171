"""Plan: the whole job, in order; ``plan/plan.py`` is the flow at a glance.

1. ``prepare(job, today)`` reads, measures, poses and binds: everything before a scale is used.
2. ``make_plan(ready)`` goes through the stages: parts at size, on plates, with dates; ``judged(stage)`` says what
   follows: findings, verdict, questions, windows, what is bought, totals and cost. ``make_undated(ready)`` stops at
   the plates, for a schedule of many jobs.
3. ``after_failure(plan, failure)`` plans what is left, ``on_one_calendar(plans)`` several jobs together: other plates
   or dates, and the same ``judged``.
4. ``audited(plan, program, plate)`` compares a G-code program with a plate.
"""

from planner.plan.after_failure.after_failure import AfterFailure, after_failure
from planner.plan.after_failure.failure import Failure
from planner.plan.audited import audited
from planner.plan.changed_job import proved_remedies
from planner.plan.chapter.buy_list import Leads, Purchase, buy_list, items_of, late_by_lead
from planner.plan.chapter.chapter import Chapter, on_one_calendar
from planner.plan.chapter.left_to_print import left_to_print
from planner.plan.chapter.money import ChapterMoney, chapter_money
from planner.plan.chapter.shared import Shared
from planner.plan.dates.as_it_stands import Drawn, Standing, Stood
from planner.plan.dates.date_findings import timing_findings
from planner.plan.dates.spool_ends import ends_at, spool_lines
from planner.plan.judged import judged
from planner.plan.movement_and_strength import movement, strengths
from planner.plan.parts.next_size import NextSize, next_size
from planner.plan.parts.openings_at_size import openings_of
from planner.plan.parts.padding_patterns import PaddingPatterns, padding_patterns
from planner.plan.plan import make_plan, make_undated
from planner.plan.plan_record import Plan
from planner.plan.planned_part import PlannedPart
from planner.plan.plates.bed_of_printer import brought_to
from planner.plan.plates.packed_plates import rules_of
from planner.plan.prepare import Progress, no_progress, prepare, prepare_moves, prepare_rebored
from planner.plan.rebore_proof import what_widens
from planner.plan.settings_at_size import judged_settings
from planner.plan.stages import CouponFirst, Prepared, Scheduled

__all__ = [
    "AfterFailure",
    "Chapter",
    "ChapterMoney",
    "CouponFirst",
    "Drawn",
    "Failure",
    "Leads",
    "NextSize",
    "PaddingPatterns",
    "Plan",
    "PlannedPart",
    "Prepared",
    "Progress",
    "Purchase",
    "Scheduled",
    "Shared",
    "Standing",
    "Stood",
    "after_failure",
    "audited",
    "brought_to",
    "buy_list",
    "chapter_money",
    "ends_at",
    "items_of",
    "judged",
    "judged_settings",
    "late_by_lead",
    "left_to_print",
    "make_plan",
    "make_undated",
    "movement",
    "next_size",
    "no_progress",
    "on_one_calendar",
    "openings_of",
    "padding_patterns",
    "prepare",
    "prepare_moves",
    "prepare_rebored",
    "proved_remedies",
    "rules_of",
    "spool_lines",
    "strengths",
    "timing_findings",
    "what_widens",
]
