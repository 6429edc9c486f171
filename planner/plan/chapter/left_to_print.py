"""Left to print: a plan without what is printed already, plates whole where they can be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.packing import Plate, counted
from planner.plan.after_failure.pieces_again import plate_again
from planner.plan.chapter.as_laid import as_laid
from planner.plan.dates.as_it_stands import Standing
from planner.plan.dates.coupon_first import after_coupon, gated
from planner.plan.dates.plate_dates import TimedPlates, job_with_times
from planner.plan.dates.split_batches import batch_for, packed_of
from planner.plan.dates.with_dates import with_plates
from planner.plan.judged import judged
from planner.plan.plan_record import Plan
from planner.plan.plates.plate_inputs import PlateInputs
from planner.plan.stages import Printed

Pieces = Mapping[str, int]
"""How many of each part."""


def left_to_print(
    plan: Plan, printed: Pieces, done: Sequence[Pieces], standing: Standing | None = None, *, dated: bool = True
) -> Plan:
    """Return the plan of the pieces that are not printed yet, with dates of its own where ``dated``, judged again.

    ``printed`` counts the pieces that came off a plate whole, ``done`` those of each plate that was printed as planned:
    a plate of just these pieces is over. Of the others each keeps the pieces that are still missing, where they lay,
    but plates of the last plan stay as they are. A schedule of all jobs gives dates to what has none; where nothing is
    left to print there is only the hands' work, and that gets them at once.
    """
    plates, behind = _parted(plan, printed, done)
    job, coupon, stands = plan.stage.sized.ready.job, plan.coupon, standing or Standing()
    inputs = PlateInputs.at(plan.stage.sized, after_coupon(job, coupon))
    plates = as_laid(inputs, plates, stands.stood)
    if [p.placements for p in plates] == [p.placements for p in plan.plates] and not behind and standing is None:
        return plan
    batches = [batch_for(inputs, packed_of(plate)) for plate in plates]
    if plates and not dated:
        stage = with_plates(plan.stage, TimedPlates(plates=tuple(plates), batches=tuple(batches), clocks=None))
        return judged(replace(stage, parted_why="", printed=stage.printed + Printed(plates=tuple(behind))))
    made = job_with_times(
        inputs,
        plates,
        batches,
        coupon.hands_min if coupon else 0,
        gated(job, coupon),
        stands,
    )
    stage = with_plates(plan.stage, made)
    return judged(replace(stage, parted_why="", printed=stage.printed + Printed(plates=tuple(behind))))


def _parted(plan: Plan, printed: Pieces, done: Sequence[Pieces]) -> tuple[list[Plate], list[Plate]]:
    """Return the plates that are left, and those that are behind, with the pieces that are."""
    have, over = Counter(printed), [Counter(pieces) for pieces in done]
    left, behind = list[Plate](), list[Plate]()
    for plate in plan.plates:
        pieces = Counter(counted(plate.placements))
        if pieces in over and pieces <= have:
            over.remove(pieces)
            have -= pieces
            behind.append(plate)
        else:
            left.append(plate)
    inputs, again = PlateInputs.of(plan), list[Plate]()
    for plate in left:
        pieces = Counter(counted(plate.placements))
        there = pieces & have
        have -= there
        missing = plate_again(inputs, plate, pieces - there)
        if missing is not None:
            again.append(missing)
        if there:
            stays = [p for p in plate.placements if missing is None or p not in missing.placements]
            behind.append(replace(plate, placements=tuple(stays)))
    return again, behind
