"""A plan with other plates than it was made with: what hangs on them is computed anew."""

from __future__ import annotations

from dataclasses import replace

from planner.planned.plates import costed, summed
from planner.planned.record import Plan
from planner.plates import Plate
from planner.timing import Batch, Clocks


def with_plates(plan: Plan, plates: tuple[Plate, ...], batches: tuple[Batch, ...], clocks: Clocks | None) -> Plan:
    """Return a plan with other plates, their batches and their clocks: dates, totals and cost go with them."""
    material = next(m for m in plan.job.materials if m.name == plan.material.choice)
    totals = summed(plates)
    return replace(
        plan,
        plates=plates,
        batches=batches,
        clocks=clocks,
        runs=clocks.table.runs if clocks else (),
        totals=totals,
        cost=costed(plan.job, material, plates, totals, plan.hardware, plan.cuts),
    )
