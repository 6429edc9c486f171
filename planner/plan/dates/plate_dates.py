"""Times: dates for the plates of all jobs, and each on the bed of the printer that its time is on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from planner.packing import Plate
from planner.plan.dates.as_it_stands import Standing
from planner.plan.dates.plate_hours import on_their_printers
from planner.plan.dates.split_batches import batches_again
from planner.plan.dates.timed_plan import JobPlates, timed
from planner.plan.plates.plate_inputs import PlateInputs
from planner.schedule import Batch, Clocks


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedPlates:
    """Plates on their printers, the batch of each by that printer's hazard, and the clocks; None without a calendar."""

    plates: tuple[Plate, ...]
    batches: tuple[Batch, ...]
    clocks: Clocks | None


def job_with_times(
    inputs: PlateInputs,
    plates: Sequence[Plate],
    batches: Sequence[Batch],
    hands_before_min: int = 0,
    printers_free: Mapping[str, datetime] | None = None,
    standing: Standing | None = None,
) -> TimedPlates:
    """Return one job's plates with times; without a calendar, or a start, they stay as they are.

    ``hands_before_min`` of work lie before the first plate; ``printers_free`` says from when on printers take plates,
    because their coupons are measured then.
    """
    calendar = inputs.job.calendar
    if calendar is None or calendar.start is None:
        return TimedPlates(plates=tuple(plates), batches=tuple(batches), clocks=None)
    free = printers_free or {}
    job = JobPlates(
        inputs=inputs,
        plates=tuple(plates),
        hands_before_min=hands_before_min,
        printers_free=free,
        measured=free,
        standing=standing or Standing(),
    )
    return plates_with_times([job], [batches])[0]


def plates_with_times(jobs: Sequence[JobPlates], batches: Sequence[Sequence[Batch]]) -> tuple[TimedPlates, ...]:
    """Return the plates of all jobs with times on one schedule.

    Those that it gives to another printer are brought there and weighed again.
    """
    return tuple(_on_printers(job, mine, clocks) for job, mine, clocks in zip(jobs, batches, timed(jobs), strict=True))


def _on_printers(job: JobPlates, batches: Sequence[Batch], clocks: Clocks) -> TimedPlates:
    """Return a job's plates on the printers that their times are on."""
    moved = on_their_printers(job.inputs, job.plates, clocks.table.runs)
    return TimedPlates(plates=moved, batches=batches_again(job.inputs, job.plates, moved, batches), clocks=clocks)
