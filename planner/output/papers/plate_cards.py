"""Plate cards: one for each plate, to hang at the printer."""

from __future__ import annotations

from collections.abc import Mapping

from planner.job import Printer, printer_named
from planner.output.drawing.plate_shapes import plate_shapes
from planner.output.drawing.plate_view import plate_view
from planner.output.drawing.qr_code import qr_code
from planner.output.paper_files.sheet import (
    BOX,
    Beside,
    Card,
    Facts,
    Heading,
    Lines,
    Picture,
    Rows,
    Sheet,
    Ticks,
    Words,
)
from planner.output.words import wording
from planner.output.words.paper_words import PRACTICE, caliper, reads, with_count
from planner.packing import Plate
from planner.phrases import listed, moment
from planner.plan import Plan, PlannedPart

TALL_FOR_FOOT = 2.5
"""A part higher than this many times the root of its first layer's area may be knocked over; common practice."""
CODE_SHARE = 0.35
"""A code's part of its column's width: 26 mm, modules of 0.9 mm; phones read half of that (no source)."""
FAILING = (
    "If a piece comes loose, lines hang in the air or layers shift, stop. Let it cool before you reach in: it is hot.",
    "Read the height it reached. Keep pieces that are finished at that height (see the table); print the rest again.",
    "Gaps or thin lines mean tangled, wet or used-up filament, or a clogged nozzle. Fix that before you start again.",
    "Never glue a broken piece that carries load. Write height, hour and cause below: the next plan uses them.",
)
"""What to do when it fails: what to keep and what to write down; common practice, no source."""
WORST = "If it is more than 0.5 mm off, the scale or the unit is wrong: stop."


def plate_cards(plan: Plan, ids: Mapping[int, str] | None = None) -> Sheet:
    """Return a card for each plate; with its id, as words and as a square to scan, where a ledger knows it."""
    parts = {p.part.name: p for p in plan.parts}
    cards = tuple(_card(plan, plate, parts, (ids or {}).get(plate.number, "")) for plate in plan.plates)
    empty = Card(
        title="Plate cards", blocks=(Words(text=f"There is no plate: {plan.totals.withheld}.", tone="warning"),)
    )
    return Sheet(name="plate-cards", title="Plate cards", cards=cards or (empty,))


def _card(plan: Plan, plate: Plate, parts: dict[str, PlannedPart], name: str) -> Card:
    """Return the card of one plate; the lines to sign stand above the pieces, so that they stay on its first page."""
    kinds = list(dict.fromkeys(p.part for p in plate.placements))
    run = next((run for run in plan.runs if run.plate == plate.number), None)
    start = "no calendar in the job" if run is None else moment(run.start)
    group, bed = plate.group, printer_named(plan.job, plate.printer).bed
    rings = {name: part.outline_mm for name, part in parts.items()}
    mass = wording.grams(plate.mass_g.value) if plate.mass_g else "withheld"
    return Card(
        title=f"Plate {plate.number} of {len(plan.plates)}",
        blocks=(
            Beside(
                left=(
                    Picture(drawing=plate_shapes(plate_view(plate, rings, bed))),
                    *((Picture(drawing=qr_code(name), share=CODE_SHARE),) if name else ()),
                ),
                right=(
                    Facts(
                        rows=(
                            *((("id", name, "what you say to fitwright started, done or failed"),) if name else ()),
                            *((("printer", plate.printer, ""),) if plan.job.more_printers else ()),
                            ("time", wording.hours(plate.duration_s), ""),
                            ("mass", mass + (f": {plate.withheld}" if plate.withheld else ""), ""),
                            ("start", start + (f": {run.reason}" if run and run.reason else ""), ""),
                            ("load", f"{group.material}, {group.colour}: {_hot(plan)}", ""),
                            ("by hand", group.by_hand, ""),
                            *_order(plate),
                            *(
                                (("first", f"try this joint before printing more: {plate.joint}", ""),)
                                if plate.joint
                                else ()
                            ),
                            ("file", plate.file, ""),
                        )
                    ),
                    Heading(text="First layer"),
                    Ticks(steps=_watch(plan, kinds, parts)),
                ),
                share=0.45,
            ),
            Heading(text="If it fails"),
            Ticks(steps=FAILING),
            Lines(labels=("started by (role)", "date, hour", "ended, hour", "failed: height, cause")),
            Heading(text="Pieces, as they come off the bed"),
            _pieces(plate, kinds, parts),
            Words(text=_why(printer_named(plan.job, plate.printer)), tone="small"),
        ),
    )


def _why(printer: Printer) -> str:
    """Say where the numbers of a card come from: the plate's own printer."""
    return (
        f"{wording.time_why(printer.time_ratio)} {wording.mass_why(printer.mass_ratio)} Lengths are those of the mesh "
        f"at size, ± 0.5 mm: {PRACTICE}. A piece is finished when the print reaches its height."
    )


def _hot(plan: Plan) -> str:
    """Return both temperatures."""
    settings, material = plan.job.settings, plan.material
    nozzle, bed = settings.nozzle_c or material.nozzle_c, settings.bed_c or material.bed_c
    dry = "; dry it first" if material.dry_first else ""
    return f"nozzle {nozzle.value:g} °C, bed {bed.value:g} °C{dry}"


def _order(plate: Plate) -> tuple[tuple[str, str, str], ...]:
    """Return the order of pieces that are printed one after another; nothing where they grow together."""
    if not plate.in_turn:
        return ()
    return (("order", "one after another in the order of the numbers; each is finished before the next starts", ""),)


def _pieces(plate: Plate, kinds: list[str], parts: dict[str, PlannedPart]) -> Rows:
    """Return each piece on the plate, the height at which it is finished, and what one more of it takes."""
    rows = []
    for number, name in enumerate(kinds, 1):
        part, count = parts[name], sum(p.part == name for p in plate.placements)
        again = wording.duration(part.estimate.duration_s) if part.estimate else "not known"
        what = with_count(name, count) + (" (mirrored)" if part.mirrored else "")
        whole = f"{part.posed.size_mm[2]:.1f} mm"
        rows.append((str(number), what, reads(part), whole, f"{again}, {wording.grams(part.mass_g)}", BOX))
    return Rows(
        head=("no.", "piece", "caliper must read", "finished at", "one more takes", "good"),
        rows=tuple(rows),
        shares=(0.7, 3.2, 2.3, 1.5, 2.5, 0.8),
        right=(3,),
    )


def _watch(plan: Plan, kinds: list[str], parts: dict[str, PlannedPart]) -> tuple[str, ...]:
    """Return what to look at while the first layer goes down."""
    s = plan.job.settings
    tippy = [
        name
        for name in kinds
        if (e := parts[name].estimate) and e.height_mm > TALL_FOR_FOOT * max(e.contact_mm2, 1e-9) ** 0.5
    ]
    foot = [(e.contact_mm2, name) for name in kinds if (e := parts[name].estimate)]
    least = f" The smallest contact with the bed is {min(foot)[1]}: {min(foot)[0]:.0f} mm²." if foot else ""
    layer = f"{s.first_layer_height_mm.value:g} mm at {s.first_layer_speed_mm_s.value:g} mm/s"
    steps = [
        f"The bed is clean and hot; first layer {layer}.",
        f"Lines touch each other without gap or ridge; nothing lifts or drags.{least}",
        "The file is already at size: do not scale, do not mirror.",
    ]
    if tippy:
        steps.append(f"Tall on a small base: {listed(tippy)}. Look again at a third of the height.")
    first = max((parts[name] for name in kinds), key=_tells)
    steps.append(f"First piece off the bed, {first.part.name}: the caliper must read {reads(first)}. {WORST}")
    return tuple(steps)


def _tells(part: PlannedPart) -> tuple[bool, float]:
    """Return how well a piece shows a wrong scale: long pieces well, pieces that keep their drawn size not at all."""
    return part.part.scale_percent is None, caliper(part)[1]
