"""Plate cards: one for each plate, to hang at the printer."""

from __future__ import annotations

from collections.abc import Mapping

from planner.job import Printer, printer_named
from planner.output.bench.translated import findings_stay, own_head, unsigned
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
from planner.output.tongue import ENGLISH, Tongue
from planner.output.words import wording
from planner.output.words.paper_words import caliper, colour_words, copies, grams, hours, reads
from planner.packing import Group, Plate
from planner.plan import Plan, PlannedPart

TALL_FOR_FOOT = 2.5
"""A part higher than this many times the root of its first layer's area may be knocked over; common practice."""
CODE_SHARE = 0.35
"""A code's part of its column's width: 26 mm, modules of 0.9 mm; phones read half of that (no source)."""


def _failing(t: Tongue) -> tuple[str, ...]:
    """Return what to do when it fails: what to keep and what to write down; common practice, no source."""
    return (
        t.say(
            "If a piece comes loose, lines hang in the air or layers shift, stop. Let it cool before you reach in: it "
            "is hot."
        ),
        t.say(
            "Read the height that the print reached. Keep a piece only if its own height in the table is no more than "
            "that. Print the others again."
        ),
        t.say(
            "Gaps or thin lines mean tangled, wet or used-up filament, or a clogged nozzle. Fix that before you start "
            "again."
        ),
        t.say(
            "Never glue a broken piece that carries load. Write height, hour and cause below: the next plan uses them."
        ),
    )


def plate_cards(plan: Plan, ids: Mapping[int, str] | None = None, tongue: Tongue = ENGLISH) -> Sheet:
    """Return a card for each plate; with its id, as words and as a square to scan, where a ledger knows it."""
    parts, title = {p.part.name: p for p in plan.parts}, tongue.say("Plate cards")
    cards = tuple(_card(plan, plate, parts, (ids or {}).get(plate.number, ""), tongue) for plate in plan.plates)
    if not cards:
        none = _with_why(tongue.say("There is no plate"), f"{plan.totals.withheld}.", tongue)
        cards = (Card(title=title, blocks=(*unsigned(tongue), Words(text=none, tone="warning"))),)
    return Sheet(name="plate-cards", title=title, cards=cards, head=own_head(plan, tongue))


def _card(plan: Plan, plate: Plate, parts: dict[str, PlannedPart], name: str, tongue: Tongue) -> Card:
    """Return the card of one plate; the lines to sign stand above the pieces, so that they stay on its first page."""
    kinds, say = list(dict.fromkeys(p.part for p in plate.placements)), tongue.say
    printer = printer_named(plan.job, plate.printer)
    late = any(run.reason for run in plan.runs if run.plate == plate.number)
    view = plate_view(plate, {part: one.outline_mm for part, one in parts.items()}, printer.bed)
    return Card(
        title=say("Plate {n} of {count}", n=str(plate.number), count=str(len(plan.plates))),
        blocks=(
            *unsigned(tongue),
            *(findings_stay(tongue) if plate.withheld or late else []),
            Beside(
                left=(
                    Picture(drawing=plate_shapes(view, tongue)),
                    *((Picture(drawing=qr_code(name, tongue), share=CODE_SHARE),) if name else ()),
                ),
                right=(
                    Facts(rows=_facts(plan, plate, name, tongue)),
                    Heading(text=say("First layer")),
                    Ticks(steps=_watch(plan, kinds, parts, tongue)),
                ),
                share=0.45,
            ),
            Heading(text=say("If it fails")),
            Ticks(steps=tongue.all_beside(_failing)),
            Lines(
                labels=(
                    say("started by (role)"),
                    say("date, hour"),
                    say("ended, hour"),
                    say("failed: height, cause"),
                )
            ),
            Heading(text=say("Pieces, as they come off the bed")),
            _pieces(plate, kinds, parts, tongue),
            Words(text=_why(printer, tongue), tone="small"),
        ),
    )


def _facts(plan: Plan, plate: Plate, name: str, tongue: Tongue) -> tuple[tuple[str, str, str], ...]:
    """Return what a plate is and how it is set up; ``name`` is its id in a ledger."""
    say, group = tongue.say, plate.group
    run = next((run for run in plan.runs if run.plate == plate.number), None)
    start = say("no calendar in the job") if run is None else tongue.moment(run.start)
    load = say(
        "{material}, {colour}: {heat}",
        material=tongue.kept(group.material),
        colour=colour_words(group.colour, tongue),
        heat=_hot(plan, tongue),
    )
    rows = [
        (say("time"), hours(plate.duration_s, tongue)),
        (say("mass"), _with_why(grams(plate.mass_g.value if plate.mass_g else None, tongue), plate.withheld, tongue)),
        (say("start"), _with_why(start, run.reason if run else "", tongue)),
        (say("loaded with"), load),
        (say("by hand"), _by_hand(group, tongue)),
    ]
    if plate.in_turn:
        rows.append(
            (
                say("order"),
                say("one after another in the order of the numbers; each is finished before the next starts"),
            )
        )
    if plate.joint:
        joint = tongue.kept(plate.joint)
        rows.append((say("first"), say("try this joint before printing more: {joint}", joint=joint)))
    rows.append((say("file"), tongue.kept(plate.file)))
    if plan.job.more_printers:
        rows.insert(0, (say("printer"), tongue.kept(plate.printer)))
    known = ((say("id"), name, say("what you say to fitwright started, done or failed")),) if name else ()
    return (*known, *((what, value, "") for what, value in rows))


def _with_why(told: str, why: str, tongue: Tongue) -> str:
    """Return a value with the reason that the plan gives, which stays English."""
    if not why:
        return told
    return f"{told}: {why}" if tongue.code == "en" else f"{told}{tongue.in_english(why)}"


def _by_hand(group: Group, tongue: Tongue) -> str:
    """Return what is set for a plate besides material and colour."""
    say = tongue.say
    told = [say("support on") if group.support else say("support off")]
    brim = tongue.amount(f"{group.brim_mm:g} mm")
    told.append(say("brim {mm}", mm=brim) if group.brim_mm else say("brim none"))
    if group.layer_height_mm is not None:
        told.append(say("layers {mm}", mm=tongue.amount(f"{group.layer_height_mm:g} mm")))
    return tongue.row(told)


def _why(printer: Printer, tongue: Tongue) -> str:
    """Say where the numbers of a card come from: the plate's own printer."""
    lengths = tongue.say(
        "Lengths are those of the mesh at size, {off}: common practice, no source. A piece is finished when the print "
        "reaches its height.",
        off=tongue.amount("± 0.5 mm"),
    )
    return f"{wording.time_why(printer.time_ratio, tongue)} {wording.mass_why(printer.mass_ratio, tongue)} {lengths}"


def _hot(plan: Plan, tongue: Tongue) -> str:
    """Return both temperatures."""
    settings, material, say = plan.job.settings, plan.material, tongue.say
    nozzle, bed = settings.nozzle_c or material.nozzle_c, settings.bed_c or material.bed_c
    told = say(
        "nozzle {nozzle}, bed {bed}",
        nozzle=tongue.amount(f"{nozzle.value:g} °C"),
        bed=tongue.amount(f"{bed.value:g} °C"),
    )
    return say("{told}; dry it first", told=told) if material.dry_first else told


def _pieces(plate: Plate, kinds: list[str], parts: dict[str, PlannedPart], tongue: Tongue) -> Rows:
    """Return each piece on the plate, the height at which it is finished, and what one more of it takes."""
    rows, say, amount = [], tongue.say, tongue.amount
    for number, name in enumerate(kinds, 1):
        part, count = parts[name], sum(p.part == name for p in plate.placements)
        again = amount(wording.duration(part.estimate.duration_s)) if part.estimate else say("not known")
        whole = amount(f"{part.posed.size_mm[2]:.1f} mm")
        takes = tongue.row((again, grams(part.mass_g, tongue)))
        rows.append((str(number), copies(part, count, tongue), reads(part, tongue), whole, takes, BOX))
    return Rows(
        head=(
            say("no."),
            say("piece"),
            say("caliper must read"),
            say("finished at"),
            say("one more takes"),
            say("good"),
        ),
        rows=tuple(rows),
        shares=(0.7, 3.2, 2.3, 1.5, 2.5, 0.8),
        right=(3,),
    )


def _watch(plan: Plan, kinds: list[str], parts: dict[str, PlannedPart], tongue: Tongue) -> tuple[str, ...]:
    """Return what to look at while the first layer goes down."""
    s, say, amount = plan.job.settings, tongue.say, tongue.amount
    tippy = [
        name
        for name in kinds
        if (e := parts[name].estimate) and e.height_mm > TALL_FOR_FOOT * max(e.contact_mm2, 1e-9) ** 0.5
    ]
    feet = [(e.contact_mm2, name) for name in kinds if (e := parts[name].estimate)]
    lines = [say("Lines touch each other without gap or ridge; nothing lifts or drags.")]
    if feet:
        mm2, least = min(feet)
        foot, area = tongue.kept(least), amount(f"{mm2:.0f} mm²")
        lines.append(say("The smallest contact with the bed is {part}: {area}.", part=foot, area=area))
    steps = [
        say(
            "The bed is clean and hot; first layer {high} at {speed}.",
            high=amount(f"{s.first_layer_height_mm.value:g} mm"),
            speed=amount(f"{s.first_layer_speed_mm_s.value:g} mm/s"),
        ),
        " ".join(lines),
        tongue.beside(lambda t: t.say("The file is already at size: do not scale, do not mirror.")),
    ]
    if tippy:
        tall = tongue.listed(map(tongue.kept, tippy))
        steps.append(say("Tall on a small base: {parts}. Look again at a third of the height.", parts=tall))
    first = max((parts[name] for name in kinds), key=_tells)
    steps.append(tongue.beside(lambda t: _first_piece(first, t)))
    return tuple(steps)


def _first_piece(first: PlannedPart, t: Tongue) -> str:
    """Return what the first piece must measure, and what it means when it does not."""
    return t.say(
        "First piece off the bed, {part}: the caliper must read {size}. If it is more than {off} off, the scale or the "
        "unit is wrong: stop.",
        part=t.kept(first.part.name),
        size=reads(first, t),
        off=t.amount("0.5 mm"),
    )


def _tells(part: PlannedPart) -> tuple[bool, float]:
    """Return how well a piece shows a wrong scale: long pieces well, pieces that keep their drawn size not at all."""
    return part.part.scale_percent is None, caliper(part)[1]
