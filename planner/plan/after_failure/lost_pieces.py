"""Lost pieces, packed again: into gaps of the plates still to come where they fit, else on as few plates as can be."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from shapely import Polygon

from planner.finding import Finding
from planner.job import kind_of, printer_named, printers_of, usable_ground
from planner.packing import Group, Item, PackedPlate, Placement, Plate
from planner.plan.dates.split_batches import longest_s, packed_of
from planner.plan.plates.filled_gaps import fuller
from planner.plan.plates.finished_plates import finished_plate
from planner.plan.plates.packed_plates import items_of, packed_items, rules_of
from planner.plan.plates.plate_inputs import PlateInputs

Copy = tuple[str, int]


def repacked(inputs: PlateInputs, left: Sequence[Plate], failed: Plate, lost: Sequence[Placement]) -> list[Plate]:
    """Return the plates still to print, with the lost pieces on them, on as few plates as possible.

    ``left`` are the plates after the failed one. Of ways that need equally many plates, the one that changes least
    is taken: first the pieces go into the gaps of those plates, then on plates of their own; everything is packed
    again only where that saves a plate. Every plate is proved, and none gets longer than the calendar allows.
    """
    if not lost:
        return list(left)
    ways = (_in_gaps(inputs, left, lost), _on_their_own(inputs, left, failed, lost))
    best = min((way for way in ways if way is not None), key=len)
    if left and len(best) > _least_n(inputs, [*left, replace(failed, placements=tuple(lost))]):
        anew = _repacked_all(inputs, left, failed, lost)
        best = anew if anew is not None and len(anew) < len(best) else best
    return best


def _least_n(inputs: PlateInputs, plates: Sequence[Plate]) -> int:
    """Return the least number of plates by area: none holds more outlines than the largest bed."""
    items = {item.part: item for item in items_of(inputs.job, inputs.material, inputs.parts)}
    room = max(float(usable_ground(printer.bed).area) for printer in printers_of(inputs.job))
    area: dict[Group, float] = {}
    for plate in plates:
        for p in plate.placements:
            own = Polygon(items[p.part].rings[0], items[p.part].rings[1:]).area
            area[plate.group] = area.get(plate.group, 0.0) + float(own)
    return sum(max(1, -int(-(each / room - 1e-9) // 1)) for each in area.values())


def _in_gaps(inputs: PlateInputs, left: Sequence[Plate], lost: Sequence[Placement]) -> list[Plate] | None:
    """Return plates with the lost pieces in their gaps; None where not all find room."""
    wanted = [(p.part, p.copy) for p in lost]
    found = []
    for plate in left:
        mine = [copy for copy in wanted if _group_of(inputs, copy[0]) == plate.group]
        if not mine:
            found.append(plate)
            continue
        items = {item.part: item for item in _items(inputs, [*mine, *((p.part, p.copy) for p in plate.placements)])}
        rules = rules_of(inputs.job, printer_named(inputs.job, plate.printer))
        packed = fuller(inputs.job, packed_of(plate), mine, items, rules)
        made = finished_plate(inputs, packed, plate.number) if packed is not None else plate
        if packed is None or not _runs(inputs, made):
            found.append(plate)
            continue
        found.append(made)
        there = {(p.part, p.copy) for p in packed.placements}
        wanted = [copy for copy in wanted if copy not in there]
    return None if wanted else found


def _on_their_own(inputs: PlateInputs, left: Sequence[Plate], failed: Plate, lost: Sequence[Placement]) -> list[Plate]:
    """Return the plates with the lost pieces on plates of their own, in the failed one's place."""
    copies = [(p.part, p.copy) for p in lost]
    if len(lost) == len(failed.placements):  # all of it: as it was proved, and as it was prepared
        return sorted([*left, failed], key=lambda plate: plate.number)
    share = len(lost) / len(failed.placements)
    where_they_lay = replace(packed_of(failed), placements=tuple(lost), fill=failed.fill * share)
    packed = _packed(inputs, copies) or [where_they_lay]  # part of a plate that holds, holds
    last = max([failed.number, *(plate.number for plate in left)])
    numbers = [failed.number, *range(last + 1, last + len(packed))]
    own = [finished_plate(inputs, plate, number) for plate, number in zip(packed, numbers, strict=True)]
    return sorted([*left, *own], key=lambda plate: plate.number)


def _repacked_all(
    inputs: PlateInputs, left: Sequence[Plate], failed: Plate, lost: Sequence[Placement]
) -> list[Plate] | None:
    """Return all that is left, packed again under the old numbers; None where they do not hold it."""
    copies = [(p.part, p.copy) for plate in left for p in plate.placements] + [(p.part, p.copy) for p in lost]
    numbers = sorted([failed.number, *(plate.number for plate in left)])
    packed = _packed(inputs, copies)
    if packed is None or len(packed) > len(numbers):
        return None
    plates = [finished_plate(inputs, plate, number) for plate, number in zip(packed, numbers, strict=False)]
    return plates if all(_runs(inputs, plate) for plate in plates) else None


def _packed(inputs: PlateInputs, copies: Sequence[Copy]) -> list[PackedPlate] | None:
    """Return copies on plates, under their own numbers; None where some find no place or a rule is broken."""
    plates, findings = packed_items(inputs.job, inputs.material, _items(inputs, copies))
    if any(_stops(finding) for finding in findings):
        return None
    left = {part: sorted(copy for other, copy in copies if other == part) for part, _ in copies}
    return [
        replace(
            plate,
            placements=tuple(replace(p, copy=left[p.part][p.copy - 1]) for p in plate.placements),
        )
        for plate in plates
    ]


def _stops(finding: Finding) -> bool:
    """Return whether a finding of packing says that something is missing or against a rule."""
    return "layout" in kind_of(finding.rule).asks


def _runs(inputs: PlateInputs, plate: Plate) -> bool:
    """Return whether a plate may run in one go by the calendar."""
    return plate.duration_s.value <= longest_s(inputs.job)


def _group_of(inputs: PlateInputs, part: str) -> object:
    """Return the group of a part."""
    return next(item.group for item in _items(inputs, [(part, 1)]))


def _items(inputs: PlateInputs, copies: Iterable[Copy]) -> list[Item]:
    """Return the items of some copies."""
    counts = Counter(part for part, _ in copies)
    made = items_of(inputs.job, inputs.material, inputs.parts)
    return [replace(item, copies=counts[item.part]) for item in made if counts[item.part]]
