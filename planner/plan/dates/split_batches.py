"""Batches of planned plates: whether a plate is better parted, and the parting where the job asks for it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.cache import kept, key_of
from planner.job import Job, printer_named
from planner.packing import PackedPlate, Placement, Plate, counted
from planner.plan.parts.pieces_one_by_one import piece_times_s, turns_of
from planner.plan.plates.finished_plates import finished_plates
from planner.plan.plates.packed_plates import RISK_ORDER
from planner.plan.plates.plate_inputs import PlateInputs
from planner.schedule import (
    TIMING_VERSION,
    Batch,
    Counts,
    FamilyRatio,
    Hazard,
    Risk,
    batch_of,
    family_ratio,
    longest_run_min,
    risk_in_turn,
    shop_of,
)


def longest_s(job: Job) -> float:
    """Return the longest time that a plate may run in one go by the job's calendar; infinite without one."""
    if job.calendar is None or job.calendar.start is None:
        return math.inf
    return 60.0 * longest_run_min(shop_of(job.calendar, (job.printer,)))


def batch_for(inputs: PlateInputs, plate: PackedPlate, most_s: float | None = None) -> Batch:
    """Return what the pieces of a plate cost together and on several plates; kept, as layouts are.

    ``most_s`` is the longest that a plate may take; left out: what the calendar allows.
    """
    job = inputs.job
    most = longest_s(job) if most_s is None else most_s
    printer, known = printer_named(job, plate.printer), inputs.estimates.on(plate.printer)
    weights = job.calendar.weights if job.calendar else None
    laid = counted(plate.placements)
    kinds, counts = tuple(laid), tuple(laid.values())

    def load(some: Counts) -> tuple[float, float | None]:
        made = finished_plates(inputs, (_dealt(plate, dict(zip(kinds, some, strict=True))),))[0]
        return made.duration_s.value, made.mass_g.value if made.mass_g else None

    duties = tuple(job.part(kind).judged_duty for kind in kinds)

    def ratio(some: Counts) -> FamilyRatio:
        return family_ratio(printer, dict(zip(zip(kinds, duties, strict=True), some, strict=True)))

    def in_turn(some: Counts) -> Risk:
        placements = _dealt(plate, dict(zip(kinds, some, strict=True))).placements
        pieces = piece_times_s(job, placements, known, printer, plate.group.layer_height_mm)
        shares = [known[p.part].deposited_mm3 for p in placements]
        grams = load(some)[1]
        pieces_g = None if grams is None else [grams * share / max(sum(shares), 1e-9) for share in shares]
        return risk_in_turn(pieces, pieces_g, Hazard.of(printer).times(ratio(some).ratio))

    def weighed() -> Batch:
        risk_by = None if turns_of(job, printer) is None else in_turn
        return batch_of(
            kinds,
            counts,
            load,
            Hazard.of(printer),
            longest_s=most,
            weights=weights,
            risk_by=risk_by,
            ratio_by=ratio if printer.fails_by else None,
        )

    facts = [known[kind] for kind in kinds]
    key = key_of(
        TIMING_VERSION,
        kinds,
        duties,
        counts,
        facts,
        job.settings_at(plate.group.layer_height_mm),
        printer,
        inputs.material,
        most,
        weights,
        turns_of(job, printer),
    )
    return kept("batches", key, Batch, weighed)


def parted(
    inputs: PlateInputs, packed: tuple[PackedPlate, ...], most_s: float | None = None
) -> tuple[tuple[PackedPlate, ...], tuple[Batch, ...]]:
    """Return the plates, those parted that the job wants parted, and the batch of each.

    ``most_s`` parts all that take longer, as far as pieces can be parted; left out: what the calendar allows.

    Copies keep their places: part of a plate that holds, holds. Of a parted plate, the pieces that tell most for
    least are printed first.
    """
    job = inputs.job
    wish, most = job.calendar.split if job.calendar else "never", longest_s(job) if most_s is None else most_s
    plates: list[PackedPlate] = []
    batches: list[Batch] = []
    for plate in (each for whole in packed for each in _apart(inputs, whole, most)):
        batch = batch_for(inputs, plate, most)
        needed = batch.whole.duration_s > most
        if batch.best is None or not batch.pays or wish == "never" or (wish == "when-needed" and not needed):
            plates.append(plate)
            batches.append(batch)
            continue
        parts = sorted(_parts(plate, batch), key=lambda each: _rank(job, each))
        plates += parts
        batches += [batch_for(inputs, each) for each in parts]
    return tuple(plates), tuple(batches)


def _apart(inputs: PlateInputs, plate: PackedPlate, most: float) -> list[PackedPlate]:
    """Return a plate, with pieces that no time is long enough for on plates of their own where the job parts plates.

    No calendar helps such a piece, but it need not keep the others from theirs.
    """
    calendar = inputs.job.calendar
    if math.isinf(most) or calendar is None or calendar.split == "never":
        return [plate]

    def takes_s(placements: tuple[Placement, ...]) -> float:
        alone = replace(plate, placements=placements)
        return finished_plates(inputs, (alone,))[0].duration_s.value

    long = [p for p in plate.placements if takes_s((p,)) > most]
    rest = tuple(p for p in plate.placements if p not in long)
    if not long or not rest:
        return [plate]
    share = plate.fill / len(plate.placements)
    parts = [(p,) for p in long]
    return [replace(plate, placements=each, fill=share * len(each)) for each in (rest, *parts)]


def _rank(job: Job, plate: PackedPlate) -> int:
    """Return the risk order of a plate: that of its first piece to be printed."""
    return min(RISK_ORDER[job.part(p.part).judged_duty] for p in plate.placements)


def _parts(plate: PackedPlate, batch: Batch) -> list[PackedPlate]:
    """Return the plates of the best split, every copy on exactly one."""
    assert batch.best is not None
    left, found = list(plate.placements), []
    for counts in batch.best.plates:
        part = _dealt(replace(plate, placements=tuple(left)), dict(zip(batch.kinds, counts, strict=True)), plate)
        found.append(part)
        left = [p for p in left if p not in part.placements]
    return found


def _dealt(plate: PackedPlate, counts: Mapping[str, int], whole: PackedPlate | None = None) -> PackedPlate:
    """Return a plate with the first so many copies of every kind, where they lie; the fill goes with their number."""
    left, taken = dict(counts), list[Placement]()
    for placement in plate.placements:
        if left.get(placement.part, 0) > 0:
            left[placement.part] -= 1
            taken.append(placement)
    of = whole or plate
    return replace(plate, placements=tuple(taken), fill=of.fill * len(taken) / max(1, len(of.placements)))


def batches_again(
    inputs: PlateInputs, before: Sequence[Plate], after: Sequence[Plate], batches: Sequence[Batch]
) -> tuple[Batch, ...]:
    """Return the batches of plates of which some went to another printer: those are weighed again by its hazard."""
    return tuple(
        batch if was.printer == now.printer else batch_for(inputs, packed_of(now))
        for was, now, batch in zip(before, after, batches, strict=True)
    )


def packed_of(plate: Plate) -> PackedPlate:
    """Return a finished plate as it was packed."""
    return PackedPlate(
        group=plate.group, placements=plate.placements, fill=plate.fill, printer=plate.printer, joint=plate.joint
    )
