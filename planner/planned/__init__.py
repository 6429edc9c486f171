"""Planned: one job at one size, as parts, plates, dates and what follows; ``plan.py`` calls it in this order.

1. ``planned_parts(ready, material)`` poses, sizes and estimates every part.
2. ``packed_plates(job, material, parts)`` packs them; ``parted_for_dates(makings, packed)`` parts them for dates.
3. ``dated(makings, plates, batches)`` gives dates to plates and hands; ``coupon_first`` what comes before them.
4. ``after_failure(plan, failure)`` plans what is left, ``on_one_calendar(plans)`` several jobs together.
"""

from planner.planned.beds import brought_to
from planner.planned.chapter import on_one_calendar
from planner.planned.coupon import after_coupon, coupon_first
from planner.planned.dated import dated
from planner.planned.dates import timing_findings
from planner.planned.estimates import Estimates
from planner.planned.failed import AfterFailure, Failure, after_failure
from planner.planned.judged_there import judged_there, laid_past_zones
from planner.planned.makings import Makings
from planner.planned.openings import openings_of
from planner.planned.packing import packed_plates, rules_of
from planner.planned.parts import planned_parts, with_other_ways
from planner.planned.plates import by_colour, costed, finished_plates, summed
from planner.planned.record import CouponFirst, Plan, PlannedPart, works_n
from planner.planned.split import parted_for_dates
from planner.planned.spools import ends_at, spool_lines

__all__ = [
    "AfterFailure",
    "CouponFirst",
    "Estimates",
    "Failure",
    "Makings",
    "Plan",
    "PlannedPart",
    "after_coupon",
    "after_failure",
    "brought_to",
    "by_colour",
    "costed",
    "coupon_first",
    "dated",
    "ends_at",
    "finished_plates",
    "judged_there",
    "laid_past_zones",
    "on_one_calendar",
    "openings_of",
    "packed_plates",
    "parted_for_dates",
    "planned_parts",
    "rules_of",
    "spool_lines",
    "summed",
    "timing_findings",
    "with_other_ways",
    "works_n",
]
