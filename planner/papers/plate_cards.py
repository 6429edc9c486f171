"""Plate cards: one for each plate, to hang at the printer."""

from __future__ import annotations

import shapely

from planner.job import Bed, printer_named
from planner.papers.drawing import Drawing, Label, Shape, box
from planner.papers.sheet import BOX, Beside, Card, Facts, Heading, Lines, Picture, Rows, Sheet, Ticks, Words
from planner.papers.words import caliper, counted, listed
from planner.planned import Plan, PlannedPart
from planner.plates import Plate, placed_outline
from planner.report import wording

TALL_FOR_FOOT = 2.5
"""A part higher than this many times the root of its first layer's area may be knocked over; common practice."""
WORST = "More than 0.5 mm off means a wrong scale or a wrong unit: stop."


def plate_cards(plan: Plan) -> Sheet:
    """Return a card for each plate."""
    parts = {p.part.name: p for p in plan.parts}
    cards = tuple(_card(plan, plate, parts) for plate in plan.plates)
    empty = Card(
        title="Plate cards", blocks=(Words(text=f"There is no plate: {plan.totals.withheld}.", tone="warning"),)
    )
    return Sheet(name="plate-cards", title="Plate cards", cards=cards or (empty,))


def _card(plan: Plan, plate: Plate, parts: dict[str, PlannedPart]) -> Card:
    """Return the card of one plate."""
    kinds = list(dict.fromkeys(p.part for p in plate.placements))
    run = next((run for run in plan.runs if run.plate == plate.number), None)
    start = "no calendar in the job" if run is None else wording.moment(run.start)
    group = plate.group
    mass = wording.grams(plate.mass_g.value) if plate.mass_g else "withheld"
    return Card(
        title=f"Plate {plate.number} of {len(plan.plates)}",
        blocks=(
            Beside(
                left=(Picture(drawing=plate_drawing(plate, parts, printer_named(plan.job, plate.printer).bed)),),
                right=(
                    Facts(
                        rows=(
                            *((("printer", plate.printer, ""),) if plan.job.more_printers else ()),
                            ("time", wording.hours(plate.duration_s), ""),
                            ("mass", mass + (f": {plate.withheld}" if plate.withheld else ""), ""),
                            ("start", start + (f": {run.reason}" if run and run.reason else ""), ""),
                            ("load", f"{group.material}, {group.colour}: {_hot(plan)}", ""),
                            ("by hand", _by_hand(plate), ""),
                            *_order(plate),
                            ("file", plate.file, ""),
                        )
                    ),
                    Heading(text="First layer"),
                    Ticks(steps=_watch(plan, kinds, parts)),
                ),
                share=0.45,
            ),
            _pieces(plate, kinds, parts),
            Heading(text="When it fails"),
            Ticks(steps=_failing(kinds, parts)),
            Lines(labels=("started by (role)", "date, hour", "ended, hour", "failed: layer, cause")),
        ),
    )


def _hot(plan: Plan) -> str:
    """Return both temperatures."""
    settings, material = plan.job.settings, next(m for m in plan.job.materials if m.name == plan.material.choice)
    nozzle, bed = settings.nozzle_c or material.nozzle_c, settings.bed_c or material.bed_c
    dry = "; dry it first" if material.dry_first else ""
    return f"nozzle {nozzle.value:g} °C, bed {bed.value:g} °C{dry}"


def _order(plate: Plate) -> tuple[tuple[str, str, str], ...]:
    """Return the order of pieces that are printed one after another; nothing where they grow together."""
    if not plate.in_turn:
        return ()
    return (("order", "one after another, each finished before the next, by the numbers", ""),)


def _by_hand(plate: Plate) -> str:
    """Return support, brim, and a layer height of its own."""
    return plate.group.by_hand


def _pieces(plate: Plate, kinds: list[str], parts: dict[str, PlannedPart]) -> Rows:
    """Return what lies on the plate, with what one more of it takes."""
    rows = []
    for number, name in enumerate(kinds, 1):
        turns = ", ".join(str(k) for k, p in enumerate(plate.placements, 1) if p.part == name)
        part, count = parts[name], sum(p.part == name for p in plate.placements)
        way, value = caliper(part)
        again = wording.duration(part.estimate.duration_s) if part.estimate else "not known"
        what = counted(name, count) + (" (mirrored)" if part.mirrored else "")
        rows.append(
            (
                turns if plate.in_turn else str(number),
                what,
                f"{value:.1f} mm {way}",
                f"{again}, {wording.grams(part.mass_g)}",
                BOX,
            )
        )
    return Rows(
        head=("no.", "piece", "caliper must read", "one again takes", "good"),
        rows=tuple(rows),
        shares=(0.7, 3.2, 2.9, 2.5, 0.8),
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
    least = f" The smallest foot is that of {min(foot)[1]}: {min(foot)[0]:.0f} mm²." if foot else ""
    layer = f"{s.first_layer_height_mm.value:g} mm at {s.first_layer_speed_mm_s.value:g} mm/s"
    steps = [
        f"Bed clean and at heat; first layer {layer}.",
        f"Lines touch each other: no gap, no ridge; nothing lifts or drags.{least}",
        "The file is at size already: do not scale, do not mirror.",
    ]
    if tippy:
        steps.append(f"Tall on a small foot: {listed(tippy)}. Look again at a third of the height.")
    first = parts[kinds[0]]
    way, value = caliper(first)
    steps.append(f"First piece off the bed, {first.part.name}: {value:.1f} mm {way}. {WORST}")
    return tuple(steps)


def _failing(kinds: list[str], parts: dict[str, PlannedPart]) -> tuple[str, ...]:
    """Return what to do when it fails: what is whole by then, what to keep, what to write down."""
    heights = sorted((parts[name].posed.size_mm[2], name) for name in kinds)
    whole = ", ".join(f"{name} from {height:.1f} mm" for height, name in heights)
    return (
        "A piece comes loose, lines lie in the air, or layers shift: stop. It is hot: let it cool before you reach in.",
        f"Read the height reached. Whole by then: {whole}. Keep these; print the rest again.",
        "Gaps or thin lines: filament tangled, wet, at its end, or a clogged nozzle. Mend that before the next start.",
        "Never glue a broken piece that carries load. Write layer, hour and cause below: the next plan learns from it.",
    )


def plate_drawing(plate: Plate, parts: dict[str, PlannedPart], bed: Bed) -> Drawing:
    """Return a plate from above, to scale, front edge below; numbers are of kinds, or of the order in turn."""
    width, depth = bed.size_mm
    numbers = {part: index for index, part in enumerate(dict.fromkeys(p.part for p in plate.placements), 1)}
    shapes, labels = list(_ground(bed)), []
    for k, placement in enumerate(plate.placements, 1):
        outline = placed_outline(parts[placement.part].outline_mm, placement)
        rings = [outline.exterior, *outline.interiors]
        shapes.append(
            Shape(
                rings=tuple(tuple((x, y + 8.0) for x, y in list(r.simplify(0.05).coords)[:-1]) for r in rings),
                fill=0.86,
            )
        )
        line = shapely.maximum_inscribed_circle(outline, tolerance=0.5)
        size = max(3.6, min(8.0, 1.1 * line.length))
        (x, y) = line.coords[0]
        labels.append(
            Label(
                at=(x, y + 8.0 - 0.35 * size), text=str(k if plate.in_turn else numbers[placement.part]), size_mm=size
            )
        )
    labels.append(Label(at=(width / 2, 1.5), text=f"front, {width:g} mm", size_mm=5.0))
    told = ", ".join(f"{p.part} {p.copy}" for p in plate.placements)
    return Drawing(
        width_mm=width,
        height_mm=depth + 9.0,
        about=f"Plate {plate.number} from above: {told}",
        shapes=tuple(shapes),
        labels=tuple(labels),
    )


def _ground(bed: Bed) -> tuple[Shape, ...]:
    """Return the bed and the line of its margins."""
    width, depth = bed.size_mm
    m = bed.margin_mm
    if bed.shape == "circle":
        middle = shapely.Point(width / 2, width / 2 + 8.0)
        rings = [tuple(middle.buffer(r, quad_segs=32).exterior.coords[:-1]) for r in (width / 2, width / 2 - m)]
        return Shape(rings=(rings[0],), stroke_mm=0.5), Shape(rings=(rings[1],), stroke_mm=0.2, dashed=True)
    inner = box(m, m + 8.0, width - 2 * m, depth - 2 * m)
    return box(0.3, 8.0, width - 0.6, depth, stroke_mm=0.5), Shape(rings=inner.rings, stroke_mm=0.2, dashed=True)
