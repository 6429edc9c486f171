"""With dates: the coupon, then the plates, parted where the dates ask for it, each with its printer and its times."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from planner.plan.dates.coupon_first import after_coupon, coupon_first, gated, own_coupon_notes
from planner.plan.dates.plate_dates import TimedPlates, job_with_times
from planner.plan.dates.split_batches import parted
from planner.plan.dates.split_for_dates import parted_for_dates
from planner.plan.plates.finished_plates import finished_plates
from planner.plan.plates.plate_inputs import PlateInputs
from planner.plan.prepare import Progress
from planner.plan.stages import Laid, Scheduled

TRIES_N = 2
"""How often plates are numbered anew; once is enough but where the spools of a plate are tied by the numbers."""


def with_dates(laid: Laid, progress: Progress) -> Scheduled:
    """Give dates to the plates of a layout; they begin once the coupon is measured, where one comes first."""
    progress("finding times", 0.8)
    sized, job = laid.sized, laid.sized.ready.job
    first = coupon_first(job, sized.material, sized.fit.findings, sized.ready.today)
    inputs = PlateInputs.at(sized, after_coupon(job, first))
    split = parted_for_dates(inputs, laid.packed)

    def timed(order: Sequence[int]) -> TimedPlates:
        """Return the plates with their times, numbered in an order."""
        plates = finished_plates(inputs, [split.plates[index] for index in order])
        batches = [split.batches[index] for index in order]
        return job_with_times(inputs, plates, batches, first.hands_min if first else 0, gated(job, first))

    made = numbered_by_start(timed, len(split.plates))
    bare = Scheduled(laid=laid, job=job, plates=(), batches=(), clocks=None, coupon=first, parted_why=split.why)
    return with_plates(bare, made)


def numbered_by_start(timed: Callable[[Sequence[int]], TimedPlates], plates_n: int) -> TimedPlates:
    """Return plates whose numbers follow their starts, so that nobody prints plate 3 before plate 1.

    ``timed`` gives times to plates in an order of numbers; under other numbers it is no other search (see
    ``schedule/calendar/unnumbered.py``). It is asked again until the order stands, ``TRIES_N`` times at most. A plate
    without a time comes last.
    """
    order = list(range(plates_n))
    made = timed(order)
    for _ in range(TRIES_N):
        by_start = starts_in_order(made)
        if by_start == sorted(by_start):
            return made
        order = [order[index] for index in by_start]
        made = timed(order)
    return made


def starts_in_order(made: TimedPlates) -> list[int]:
    """Return the places of the plates in the order of their starts; as they are where there is no calendar."""
    place = {plate.number: index for index, plate in enumerate(made.plates)}
    runs = made.clocks.table.runs if made.clocks else ()
    placed = sorted((run.start, place[run.plate]) for run in runs if run.start is not None)
    order = [index for _, index in placed]
    return order + [index for index in place.values() if index not in order]


def without_dates(laid: Laid) -> Scheduled:
    """Return the plates of a layout without dates, for a schedule of many jobs; parted only where each has to be.

    The coupon has the time that it would have if the job were alone.
    """
    sized, job = laid.sized, laid.sized.ready.job
    first = coupon_first(job, sized.material, sized.fit.findings, sized.ready.today)
    inputs = PlateInputs.at(sized, after_coupon(job, first))
    packed, batches = parted(inputs, laid.packed)
    plates = finished_plates(inputs, packed)
    return Scheduled(laid=laid, job=job, plates=plates, batches=batches, clocks=None, coupon=first)


def with_plates(stage: Scheduled, made: TimedPlates) -> Scheduled:
    """Return a stage with other plates, their batches and their clocks; everything else stands."""
    clocks = made.clocks
    if clocks is not None:
        used = [run.printer for run in clocks.table.placed]
        more = own_coupon_notes(stage.sized.ready.job, stage.coupon, used)
        notes = tuple(dict.fromkeys((*clocks.table.notes, *more)))
        clocks = replace(clocks, table=replace(clocks.table, notes=notes))
    return replace(stage, plates=made.plates, batches=made.batches, clocks=clocks)
