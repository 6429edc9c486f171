"""Pieces of a failed plate: which are printed again, which stay, and which are scrap."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import accumulate

from planner.job import printer_named
from planner.packing import PackedPlate, Placement, Plate, counted
from planner.plan.after_failure.failure import Failure
from planner.plan.parts.pieces_one_by_one import piece_times_s
from planner.plan.plates.finished_plates import finished_plate
from planner.plan.plates.plate_inputs import PlateInputs


def plate_again(inputs: PlateInputs, plate: Plate, lost: Mapping[str, int]) -> Plate | None:
    """Return a plate with the lost pieces alone, where they lay; None where none is lost."""
    left, placements = dict(lost), list[Placement]()
    for placement in reversed(plate.placements) if plate.in_turn else plate.placements:
        if left.get(placement.part, 0):
            left[placement.part] -= 1
            placements.append(placement)
    if not placements:
        return None
    if len(placements) == len(plate.placements):
        return plate
    placements = [p for p in plate.placements if p in placements]  # the order of printing is kept
    fill = plate.fill * len(placements) / len(plate.placements)
    packed = PackedPlate(group=plate.group, placements=tuple(placements), fill=fill, printer=plate.printer)
    return finished_plate(inputs, packed, plate.number)


def unfinished(inputs: PlateInputs, plate: Plate, failure: Failure) -> dict[str, int]:
    """Return the pieces that stopping leaves to print: all, or of copies in turn those not finished, or lost."""
    placements = list(plate.placements)
    if plate.in_turn:
        printer, known = printer_named(inputs.job, plate.printer), inputs.estimates.on(plate.printer)
        times = piece_times_s(inputs.job, placements, known, printer, plate.group.layer_height_mm)
        placements = [p for p, end in zip(placements, accumulate(times), strict=True) if end > failure.at_s]
        placements = placements or [plate.placements[-1]]
    found = counted(placements)
    return {part: max(found.get(part, 0), failure.lost.get(part, 0)) for part in {**found, **failure.lost}}


def whole_pieces(plate: Plate, again: Mapping[str, int]) -> dict[str, int]:
    """Return the pieces of a stopped plate that need not be printed again."""
    counts = counted(plate.placements)
    return {part: n - again.get(part, 0) for part, n in counts.items() if n > again.get(part, 0)}


def scrap(plate: Plate, again: Mapping[str, int], failure: Failure) -> dict[str, int]:
    """Return the pieces that stopping loses: all, or of copies printed in turn the one begun and those told."""
    if not plate.in_turn:
        return dict(again)
    begun = next(p.part for p in plate.placements if again.get(p.part))
    return {**failure.lost, begun: max(1, failure.lost.get(begun, 0))}
