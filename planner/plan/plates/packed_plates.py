"""Packing: what is laid out, on whose bed and by which rules, and what is said where that does not hold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shapely import Polygon

from planner.finding import Evidence, Finding, Verdict
from planner.job import (
    PRINTER_ASKED,
    PRINTER_QUESTION,
    Bed,
    Job,
    Material,
    Printer,
    joined,
    kind_of,
    printer_named,
    usable_ground,
)
from planner.packing import Group, Item, PackedPlate, Rules, pack, verify
from planner.phrases import listed
from planner.plan.parts.pieces_one_by_one import turn_findings, turns_of
from planner.plan.planned_part import PlannedPart
from planner.plan.plates.bed_of_printer import dealt
from planner.plan.plates.filled_gaps import without_spare_plates
from planner.plan.plates.first_joint import dealt_first, first_joint, joint_before, no_first_joint

SEED = 20
PACKING_S = 7.0
"""Time that packing may take for all plates together; a first answer stands long before."""
PLATE_S = 8.0
"""More time for each plate after the first, counted by the outlines' area over the bed's: three or more are also filled
better, which pays in hours of printing."""
PACKING_MOST_S = 40.0
RISK_ORDER = {"pin": 0, "load": 1, "soft": 2, "shell": 3, "cover": 4}
"""Small movers first: the cheap parts reveal a wrong scale before the long ones; common practice, no source."""


def packed_plates(
    job: Job, material: Material, parts: tuple[PlannedPart, ...]
) -> tuple[tuple[PackedPlate, ...], tuple[Finding, ...]]:
    """Pack all copies; those that fit no bed stay out, each part with a finding that says so.

    Where the job wants one joint as first article, its pieces get a plate of their own, before the others.
    """
    items = items_of(job, material, parts)
    joint = first_joint(job, parts, items)
    if joint is not None:
        mine, others = dealt_first(joint, items)
        first, wrong = packed_items(job, material, mine)
        if len(first) == 1 and not wrong:
            rest, found = packed_items(job, material, others) if others else ((), ())
            if not any(kind_of(finding.rule).gives == "proof" for finding in found):
                return joint_before(joint, first[0], rest), found
    packed, found = packed_items(job, material, items)
    asked = job.calendar is not None and job.calendar.joint_first
    return packed, (*found, no_first_joint()) if asked else found


def items_of(job: Job, material: Material, parts: Sequence[PlannedPart]) -> list[Item]:
    """Return what is to be packed: every part with its copies, its group, and how early it is printed."""
    colour = main_colour(job, material)
    return [
        Item(
            part=p.part.name,
            copies=p.part.printed_n,
            rings=p.outline_mm,
            group=Group(
                material=material.name,
                colour=colour if p.part.colour == "any" else p.part.colour,
                support=bool(p.estimate and p.estimate.needs_support) and job.settings.support == "where-needed",
                brim_mm=job.settings.brim_mm.value,
                layer_height_mm=job.own_height_mm(p.part.name),
            ),
            order=RISK_ORDER[p.part.judged_duty],
            height_mm=float(p.posed.size_mm[2]),
            in_opening=p.part.judged_duty not in ("load", "pin"),
        )
        for p in parts
    ]


def packed_items(
    job: Job, material: Material, items: Sequence[Item]
) -> tuple[tuple[PackedPlate, ...], tuple[Finding, ...]]:
    """Pack some items; parts too large for the job's own printer are laid out for another one that takes them."""
    plates: list[PackedPlate] = []
    found: list[Finding] = []
    for name, mine in dealt(job, material, items).items():
        if mine:
            more, told = _packed_on(job, printer_named(job, name), mine)
            plates += more
            found += told
    if any(kind_of(finding.rule).gives == "proof" for finding in found):  # a layout that does not hold is never written
        return (), tuple(finding for finding in found if kind_of(finding.rule).gives == "proof")
    printers = {name: rules_of(job, printer_named(job, name)) for name in {plate.printer for plate in plates}}
    plates = without_spare_plates(job, plates, items, printers) if len(printers) > 1 else plates
    split = [names for names in rules_of(job, job.printer).together if _printers_n(plates, names) > 1]
    return _in_order(plates, items), (*found, *(_broken(names) for names in split))


def _packed_on(job: Job, printer: Printer, items: Sequence[Item]) -> tuple[list[PackedPlate], list[Finding]]:
    """Pack the items that are laid out for one printer, and prove its plates."""
    bed, spacing_mm, asked = printer.bed, job.settings.spacing_mm.value, rules_of(job, printer)
    low = [item for item in items if item.height_mm <= bed.height_mm]
    packing = pack(low, bed=bed, spacing_mm=spacing_mm, seed=SEED, budget_s=_budget_s(low, bed), rules=asked)
    lost = {part: reason for part, _, reason in packing.unplaced}
    meant = [item for item in low if item.part not in lost]
    kept = replace(asked, together=tuple(names for names in asked.together if names not in packing.broken))
    wrong = verify(packing.plates, meant, bed=bed, spacing_mm=spacing_mm, rules=kept)
    if wrong:
        return [], [_unproved(sentence) for sentence in wrong]
    lost |= {item.part: "it is higher than the printer" for item in items if item.height_mm > bed.height_mm}
    guessed = "printer" in job.guessed_keys
    found = [_lost(part, reason, guessed=guessed) for part, reason in sorted(lost.items())]
    plates = [replace(plate, printer=printer.name) for plate in packing.plates]
    return plates, [*found, *(_broken(names) for names in packing.broken), *turn_findings(job, printer)]


def _in_order(plates: Sequence[PackedPlate], items: Sequence[Item]) -> tuple[PackedPlate, ...]:
    """Return plates for several printers, early risks first; those of one printer keep their order."""
    order = {item.part: item.order for item in items}
    return tuple(sorted(plates, key=lambda plate: min(order[p.part] for p in plate.placements)))


def _printers_n(plates: Sequence[PackedPlate], names: frozenset[str]) -> int:
    """Return how many printers a set of parts is spread over."""
    return len({plate.printer for plate in plates if any(p.part in names for p in plate.placements)})


def rules_of(job: Job, printer: Printer) -> Rules:
    """Return which parts lie together on one plate, which apart, and a head's room where it counts."""
    if job.calendar is None:
        return Rules()
    return Rules(
        together=joined(job.calendar.together),
        apart=tuple(frozenset(names) for names in job.calendar.apart),
        in_turn=turns_of(job, printer),
    )


def _budget_s(items: Sequence[Item], bed: Bed) -> float:
    """Return the effort, in seconds, that packing may take: more where many plates are to be filled."""
    area = sum(item.copies * Polygon(item.rings[0]).area for item in items)
    more = area / usable_ground(bed).area - 1.0
    return float(min(PACKING_MOST_S, max(PACKING_S, PLATE_S * more)))


def _broken(names: frozenset[str]) -> Finding:
    """Say that parts which are to lie together do not."""
    return Finding(
        rule="plate.together",
        part="",
        feature=", ".join(sorted(names)),
        verdict=Verdict.HOLD,
        why=f"{listed(sorted(names))} are to lie on one plate, but differ in what is set by hand (colour, "
        "support, layer height) or are too much for one bed",
        remedy="give them one colour, or take them out of together in [plan]",
        source="[plan] together",
    )


def _unproved(sentence: str) -> Finding:
    """Say that the layout found does not hold, so that no plate is written."""
    return Finding(
        rule="plate.proof",
        part="",
        feature="plates",
        verdict=Verdict.HOLD,
        why=f"the layout that was found is wrong: {sentence}",
        remedy="report this with the job; plan fewer parts at once meanwhile",
        source="proof of every plate on the true outlines",
    )


def _lost(part: str, reason: str, *, guessed: bool) -> Finding:
    """Say that no plate holds a part; where nobody has stated the printer, that is still open."""
    return Finding(
        rule="plate.unplaced",
        part=part,
        feature="plate",
        verdict=Verdict.HOLD if guessed else Verdict.NO_GO,
        why=f"no copy of {part} lies on a plate: {reason}" + (", and nobody has stated the printer" if guessed else ""),
        remedy=("if it is printed on this printer: " if guessed else "")
        + "print it smaller, lay it another way, take off the brim, or use a larger printer"
        + (". State the printer first" if guessed else ""),
        source="packing, proved on the true outlines",
        evidence=Evidence.GUESSED if guessed else Evidence.MEASURED,
        question=PRINTER_QUESTION if guessed else "",
        question_id=PRINTER_ASKED if guessed else "",
    )


def main_colour(job: Job, material: Material) -> str:
    """Return the colour of parts that may have any: that of the fullest spool of the material."""
    spools = [spool for spool in job.spools if spool.material == material.name]
    return max(spools, key=lambda spool: spool.left_g or 0.0).colour if spools else "any"
