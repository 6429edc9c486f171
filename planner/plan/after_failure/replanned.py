"""A plan with other plates than it was made with: what hangs on them is computed anew."""

from __future__ import annotations

from dataclasses import replace

from planner.plan.dates.plate_dates import Dated
from planner.plan.plan_record import Plan
from planner.plan.plates.finished_plates import costed, summed


def with_plates(plan: Plan, made: Dated) -> Plan:
    """Return a plan with other plates, their batches and their clocks: dates, totals and cost go with them."""
    totals = summed(made.plates)
    return replace(
        plan,
        plates=made.plates,
        batches=made.batches,
        clocks=made.clocks,
        runs=made.clocks.table.runs if made.clocks else (),
        totals=totals,
        cost=costed(plan.job, plan.material, made.plates, totals, plan.hardware, plan.cuts),
    )
