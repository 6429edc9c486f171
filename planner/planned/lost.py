"""Lost pieces, packed anew: into gaps of plates still to come where they find room, else on as few plates as can be."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from shapely import Polygon

from planner.finding import Finding
from planner.job import Job, Material, printer_named, printers_of, usable_ground
from planner.planned.batches import longest_s, packed_of
from planner.planned.estimates import Estimates
from planner.planned.gaps import fuller
from planner.planned.plates import finished_plates, items_of, packed_items, rules_of
from planner.planned.record import PlannedPart
from planner.plates import Group, Item, PackedPlate, Placement, Plate, plate_stem

Copy = tuple[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What packing anew needs of a plan."""

    job: Job
    material: Material
    parts: tuple[PlannedPart, ...]
    estimates: Estimates

    def items(self, copies: Iterable[Copy]) -> list[Item]:
        """Return the items of some copies."""
        wanted = list(copies)
        counts = {part: sum(other == part for other, _ in wanted) for part, _ in wanted}
        made = items_of(self.job, self.material, self.parts)
        return [replace(item, copies=counts[item.part]) for item in made if counts.get(item.part)]


def packed_anew(bench: Bench, left: Sequence[Plate], failed: Plate, lost: Sequence[Placement]) -> list[Plate]:
    """Return the plates still to print, with the lost pieces on them, on as few plates as can be.

    ``left`` are the plates after the failed one. What costs no more plates than another way changes less: first the
    pieces go into the gaps of those plates, then on plates of their own, and only where that saves a plate all that
    is left is packed anew. Every plate is proved; none gets longer than the calendar allows.
    """
    if not lost:
        return list(left)
    ways = (_in_gaps(bench, left, lost), _on_their_own(bench, left, failed, lost))
    best = min((way for way in ways if way is not None), key=len)
    if left and len(best) > _least_n(bench, [*left, replace(failed, placements=tuple(lost))]):
        anew = _all_anew(bench, left, failed, lost)
        best = anew if anew is not None and len(anew) < len(best) else best
    return best


def _least_n(bench: Bench, plates: Sequence[Plate]) -> int:
    """Return the least number of plates by area: none holds more outlines than the largest bed."""
    items = {item.part: item for item in items_of(bench.job, bench.material, bench.parts)}
    room = max(float(usable_ground(printer.bed).area) for printer in printers_of(bench.job))
    area: dict[Group, float] = {}
    for plate in plates:
        for p in plate.placements:
            own = Polygon(items[p.part].rings[0], items[p.part].rings[1:]).area
            area[plate.group] = area.get(plate.group, 0.0) + float(own)
    return sum(max(1, -int(-(each / room - 1e-9) // 1)) for each in area.values())


def _in_gaps(bench: Bench, left: Sequence[Plate], lost: Sequence[Placement]) -> list[Plate] | None:
    """Return plates with the lost pieces in their gaps; None where not all find room."""
    wanted = [(p.part, p.copy) for p in lost]
    found = []
    for plate in left:
        mine = [copy for copy in wanted if _group_of(bench, copy[0]) == plate.group]
        if not mine:
            found.append(plate)
            continue
        items = {item.part: item for item in bench.items([*mine, *((p.part, p.copy) for p in plate.placements)])}
        rules = rules_of(bench.job, printer_named(bench.job, plate.printer))
        packed = fuller(bench.job, packed_of(plate), mine, items, rules)
        made = _finished(bench, packed, plate.number) if packed is not None else plate
        if packed is None or not _runs(bench, made):
            found.append(plate)
            continue
        found.append(made)
        there = {(p.part, p.copy) for p in packed.placements}
        wanted = [copy for copy in wanted if copy not in there]
    return None if wanted else found


def _on_their_own(bench: Bench, left: Sequence[Plate], failed: Plate, lost: Sequence[Placement]) -> list[Plate]:
    """Return the plates with the lost pieces on plates of their own, in the failed one's place."""
    copies = [(p.part, p.copy) for p in lost]
    if len(lost) == len(failed.placements):  # all of it: as it was proved, and as it was prepared
        return sorted([*left, failed], key=lambda plate: plate.number)
    share = len(lost) / len(failed.placements)
    where_they_lay = replace(packed_of(failed), placements=tuple(lost), fill=failed.fill * share)
    packed = _packed(bench, copies) or [where_they_lay]  # part of a plate that holds, holds
    last = max([failed.number, *(plate.number for plate in left)])
    numbers = [failed.number, *range(last + 1, last + len(packed))]
    own = [_finished(bench, plate, number) for plate, number in zip(packed, numbers, strict=True)]
    return sorted([*left, *own], key=lambda plate: plate.number)


def _all_anew(bench: Bench, left: Sequence[Plate], failed: Plate, lost: Sequence[Placement]) -> list[Plate] | None:
    """Return all that is left, packed anew under the numbers that were there; None where that does not hold."""
    copies = [(p.part, p.copy) for plate in left for p in plate.placements] + [(p.part, p.copy) for p in lost]
    numbers = sorted([failed.number, *(plate.number for plate in left)])
    packed = _packed(bench, copies)
    if packed is None or len(packed) > len(numbers):
        return None
    plates = [_finished(bench, plate, number) for plate, number in zip(packed, numbers, strict=False)]
    return plates if all(_runs(bench, plate) for plate in plates) else None


def _packed(bench: Bench, copies: Sequence[Copy]) -> list[PackedPlate] | None:
    """Return copies on plates, under their own numbers; None where some find no place or a rule is broken."""
    plates, findings = packed_items(bench.job, bench.material, bench.items(copies))
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
    return finding.rule in ("plate.unplaced", "plate.proof", "plate.together")


def _finished(bench: Bench, packed: PackedPlate, number: int) -> Plate:
    """Return a plate timed and weighed, under a number."""
    made = finished_plates(bench.job, bench.material, (packed,), bench.estimates)[0]
    return replace(made, number=number, file=plate_stem(number) + ".3mf")


def _runs(bench: Bench, plate: Plate) -> bool:
    """Return whether a plate may run in one go by the calendar."""
    return plate.duration_s.value <= longest_s(bench.job)


def _group_of(bench: Bench, part: str) -> object:
    """Return the group of a part."""
    return next(item.group for item in bench.items([(part, 1)]))
