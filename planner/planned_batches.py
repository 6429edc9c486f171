"""Batches of planned plates: whether a plate is better parted, and the parting where the job asks for it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from planner.cache import kept, key_of
from planner.job import Job, Material
from planner.layers import PartEstimate
from planner.planned_plates import RISK_ORDER, finished_plates
from planner.plates import PackedPlate, Placement
from planner.timing import (
    TIMING_VERSION,
    Batch,
    Counts,
    FamilyRatio,
    Hazard,
    batch_of,
    family_ratio,
    longest_run_min,
    shop_of,
)

Estimates = Mapping[str, PartEstimate]


def longest_s(job: Job) -> float:
    """Return the longest time that a plate may run in one go by the job's calendar; infinite without one."""
    if job.calendar is None or job.calendar.start is None:
        return math.inf
    return 60.0 * longest_run_min(shop_of(job.calendar, (job.printer,)))


def batch_for(job: Job, material: Material, plate: PackedPlate, estimates: Estimates) -> Batch:
    """Return what the pieces of a plate cost together and on several plates; kept, as layouts are."""
    kinds = tuple(dict.fromkeys(p.part for p in plate.placements))
    counts = tuple(sum(p.part == kind for p in plate.placements) for kind in kinds)

    def load(some: Counts) -> tuple[float, float | None]:
        made = finished_plates(job, material, (_dealt(plate, dict(zip(kinds, some, strict=True))),), estimates)[0]
        return made.duration_s.value, made.mass_g.value if made.mass_g else None

    duties = tuple(job.part(kind).judged_duty for kind in kinds)
    known = job.printer.fails_by

    def ratio(some: Counts) -> FamilyRatio:
        return family_ratio(job.printer, dict(zip(zip(kinds, duties, strict=True), some, strict=True)))

    def weighed() -> Batch:
        return batch_of(
            kinds, counts, load, Hazard.of(job.printer), longest_s=longest_s(job), ratio_by=ratio if known else None
        )

    facts = [estimates[kind] for kind in kinds]
    key = key_of(TIMING_VERSION, kinds, duties, counts, facts, job.settings, job.printer, material, longest_s(job))
    return kept("batches", key, weighed)


def parted(
    job: Job, material: Material, packed: tuple[PackedPlate, ...], estimates: Estimates
) -> tuple[tuple[PackedPlate, ...], tuple[Batch, ...]]:
    """Return the plates, those parted that the job wants parted, and the batch of each.

    Copies keep their places: part of a plate that holds, holds. Of a parted plate, the pieces that tell most for
    least are printed first.
    """
    wish = job.calendar.split if job.calendar else "never"
    plates: list[PackedPlate] = []
    batches: list[Batch] = []
    for plate in (each for whole in packed for each in _apart(job, material, whole, estimates)):
        batch = batch_for(job, material, plate, estimates)
        needed = batch.whole.duration_s > longest_s(job)
        if batch.best is None or not batch.pays or wish == "never" or (wish == "when-needed" and not needed):
            plates.append(plate)
            batches.append(batch)
            continue
        parts = sorted(_parts(plate, batch), key=lambda each: _rank(job, each))
        plates += parts
        batches += [batch_for(job, material, each, estimates) for each in parts]
    return tuple(plates), tuple(batches)


def _apart(job: Job, material: Material, plate: PackedPlate, estimates: Estimates) -> list[PackedPlate]:
    """Return a plate, with pieces that no time is long enough for on plates of their own where the job parts plates.

    No calendar helps such a piece, but it need not keep the others from theirs.
    """
    most = longest_s(job)
    if math.isinf(most) or job.calendar is None or job.calendar.split == "never":
        return [plate]

    def takes_s(placements: tuple[Placement, ...]) -> float:
        alone = replace(plate, placements=placements)
        return finished_plates(job, material, (alone,), estimates)[0].duration_s.value

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
