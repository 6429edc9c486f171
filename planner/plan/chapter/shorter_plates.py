"""Shorter plates: where jobs are late beside each other, their plates parted so that fewer days are lost."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planner.plan.chapter.plans_weighed import Weighing
from planner.plan.dates.plate_dates import TimedPlates
from planner.plan.dates.split_batches import packed_of, parted
from planner.plan.dates.split_for_dates import lengths_s
from planner.plan.dates.timed_plan import JobPlates
from planner.plan.dates.with_dates import with_plates
from planner.plan.plan_record import Plan
from planner.plan.plates.finished_plates import finished_plates
from planner.plan.plates.plate_inputs import PlateInputs


def shorter(plans: Mapping[str, Plan], jobs: Mapping[str, JobPlates]) -> Mapping[str, Plan] | None:
    """Return plans with plates parted as few times as that helps most; None where it does not.

    Every length is weighed by a schedule that is dispatched, not solved.
    """
    weighing = Weighing(jobs)
    least, found = weighing.late(jobs), None
    for most_s in _lengths_s(plans):
        parts = {name: _parted(plan, jobs[name].inputs, most_s) for name, plan in plans.items()}
        tried = {name: replace(jobs[name], plates=plan.plates) for name, plan in parts.items()}
        late = weighing.late(tried)
        if late < least:
            least, found = late, parts
    return found


def _lengths_s(plans: Mapping[str, Plan]) -> list[float]:
    """Return how long plates might be at most, over all jobs, longest first."""
    longest = max(batch.whole.duration_s for plan in plans.values() for batch in plan.batches)
    found = {
        most_s
        for plan in plans.values()
        if plan.job.calendar is not None
        for most_s in lengths_s(plan.job, plan.job.calendar, longest)
    }
    return sorted(found, reverse=True)


def _parted(plan: Plan, inputs: PlateInputs, most_s: float) -> Plan:
    """Return a plan with plates of at most a length, where its job parts plates at all."""
    if plan.job.calendar is None or plan.job.calendar.split == "never":
        return plan
    packed = tuple(packed_of(plate) for plate in plan.plates)
    parts, batches = parted(inputs, packed, most_s=most_s)
    if len(parts) == len(packed):
        return plan
    plates = finished_plates(inputs, parts)
    why = f"{len(plates)} plates instead of {len(packed)}: beside the other jobs, whole plates would be too late"
    stage = with_plates(plan.stage, TimedPlates(plates=plates, batches=batches, clocks=plan.clocks))
    return replace(plan, stage=replace(stage, parted_why=why))  # judged once its dates are settled
