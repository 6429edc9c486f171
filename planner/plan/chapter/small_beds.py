"""Small beds: where jobs are late, pieces of plates that only larger beds take are laid out again for a small one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from planner.job import Printer
from planner.packing import Item, PackedPlate, Plate, counted, pack, verify
from planner.phrases import listed, plural
from planner.plan.chapter.plans_weighed import Late, Weighing
from planner.plan.dates.plate_dates import TimedPlates
from planner.plan.dates.split_batches import batch_for, packed_of
from planner.plan.dates.timed_plan import JobPlates
from planner.plan.plan_record import Plan
from planner.plan.plates.bed_of_printer import able, brought_to, takes
from planner.plan.plates.finished_plates import finished_plates
from planner.plan.plates.packed_plates import SEED, items_of, rules_of
from planner.plan.plates.plate_inputs import PlateInputs

LAID_S = 0.5
"""Effort for laying pieces out again: one bed, a first answer is enough."""
ROUNDS_N, WAYS_N = 4, 24
"""So many plates are laid out again at most, one after the other, each where it helps most; ways weighed for one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartedPlates:
    """A job's plates with one parted: some of its pieces lie on a plate for a small bed. ``told`` says which."""

    folder: str
    packed: tuple[PackedPlate, ...]
    told: str


def on_small_beds(
    plans: Mapping[str, Plan], jobs: Mapping[str, JobPlates], late_ones: Collection[str] = ()
) -> Mapping[str, Plan] | None:
    """Return plans with plates parted for smaller beds as far as fewer days are late by it; None where none are.

    Each way is weighed by a schedule that is dispatched, not solved, those of jobs that are late first. Every new plate
    was proved for its bed.
    """
    weighing, now, told = Weighing(jobs), dict(jobs), dict[str, list[str]]()
    least = weighing.late(jobs)
    for _ in range(ROUNDS_N):
        best: tuple[Late, JobPlates, PartedPlates] | None = None
        order = sorted(now, key=lambda folder: folder not in late_ones) if any(least[:2]) else []
        every = (parted for folder in order for parted in _ways(folder, now[folder]))
        for parted in islice(every, WAYS_N):
            job = now[parted.folder]
            tried = replace(job, plates=finished_plates(job.inputs, parted.packed))
            late = weighing.late({**now, parted.folder: tried})
            if late[:2] < (best[0] if best else least)[:2]:
                best = late, tried, parted
        if best is None:
            break
        least, now[best[2].folder] = best[0], best[1]
        told.setdefault(best[2].folder, []).append(best[2].told)
    return {name: _with(plan, now[name], told.get(name, [])) for name, plan in plans.items()} if told else None


def _ways(folder: str, job: JobPlates) -> Iterator[PartedPlates]:
    """Yield a job's plates with pieces of one of them laid out again for a printer whose bed does not take it whole."""
    inputs = job.inputs
    calendar = inputs.job.calendar
    if calendar is None or calendar.split == "never":
        return
    bound = {name for names in calendar.together for name in names}
    for place, plate in enumerate(job.plates):
        if plate.in_turn or plate.joint or bound.intersection(p.part for p in plate.placements):
            continue
        for printer in able(inputs.job, inputs.material):
            if printer.name == plate.printer or brought_to(plate, printer, inputs.parts) is not None:
                continue
            laid = _laid(inputs, plate, printer)
            if laid is not None:
                packed = [packed_of(each) for each in job.plates]
                told = f"{_pieces(laid[1])} of plate {plate.number} on the bed of {printer.name}"
                yield PartedPlates(folder=folder, packed=(*packed[:place], *laid, *packed[place + 1 :]), told=told)


def _laid(inputs: PlateInputs, plate: Plate, printer: Printer) -> tuple[PackedPlate, PackedPlate] | None:
    """Return what stays on a plate, and one full bed of another printer beside it; None where that cannot be.

    What stays lies where it lay; the other plate is packed and proved from scratch.
    """
    counts, bed = counted(plate.placements), printer.bed
    items = [
        replace(item, copies=counts[item.part], group=plate.group)
        for item in items_of(inputs.job, inputs.material, inputs.parts)
        if item.part in counts
    ]
    fitting = [item for item in items if takes(printer, item)]
    if not fitting:
        return None
    rules, spacing_mm = rules_of(inputs.job, printer), inputs.job.settings.spacing_mm.value
    packing = pack(fitting, bed=bed, spacing_mm=spacing_mm, seed=SEED, budget_s=LAID_S, rules=rules)
    if not packing.plates:
        return None
    first = max(packing.plates, key=lambda each: each.fill)
    moved = Counter(counted(first.placements))
    mine = [replace(item, copies=moved[item.part]) for item in fitting if moved[item.part]]
    left, copies, stays = Counter(counts) - moved, dict[str, list[int]](), list(plate.placements)
    for placement in reversed(plate.placements):  # the last copies leave, the first stay where they lie
        if len(copies.setdefault(placement.part, [])) < moved[placement.part]:
            copies[placement.part].append(placement.copy)
            stays.remove(placement)
    if not left or _wrong(first, mine, printer, spacing_mm, inputs):
        return None
    placements = tuple(replace(p, copy=copies[p.part].pop()) for p in first.placements)
    rest = replace(packed_of(plate), placements=tuple(stays), fill=plate.fill * len(stays) / len(plate.placements))
    return rest, replace(first, placements=placements, printer=printer.name)


def _wrong(
    plate: PackedPlate, items: Sequence[Item], printer: Printer, spacing_mm: float, inputs: PlateInputs
) -> tuple[str, ...]:
    """Return what the proof, which shares no code with the search, says against a plate on a printer's bed."""
    # the proof counts copies from the first on
    count, placements = Counter[str](), []
    for placement in plate.placements:
        count[placement.part] += 1
        placements.append(replace(placement, copy=count[placement.part]))
    one = replace(plate, placements=tuple(placements))
    return verify([one], items, bed=printer.bed, spacing_mm=spacing_mm, rules=rules_of(inputs.job, printer))


def _pieces(plate: PackedPlate) -> str:
    """Return the pieces of a plate in words."""
    return listed(f"{part} x {n}" for part, n in counted(plate.placements).items())


def _with(plan: Plan, job: JobPlates, told: Sequence[str]) -> Plan:
    """Return a plan with its plates laid out again, and why; judged once its dates are settled."""
    if not told:
        return plan
    batches = [batch_for(job.inputs, packed_of(plate)) for plate in job.plates]
    made = TimedPlates(plates=job.plates, batches=tuple(batches), clocks=plan.clocks)
    stage = replace(plan.stage, plates=made.plates, batches=made.batches, clocks=made.clocks)
    plates = f"{plural(len(job.plates), 'plate')} instead of {len(plan.plates)}"
    why = f"{plates}: {listed(told)}, which would stand idle while devices are late"
    before = f"{plan.stage.parted_why}; " if plan.stage.parted_why else ""
    return replace(plan, stage=replace(stage, parted_why=before + why))
