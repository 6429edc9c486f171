"""What may go through bores of one size, and how well their form speaks for each."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from planner.assembly.bore_ends import printed_ends
from planner.assembly.doubts.answer_edits import Answer
from planner.assembly.doubts.bore_groups import BoreGroup
from planner.assembly.doubts.mates.axis_answers import axis_answers
from planner.assembly.doubts.mates.bearing_answers import bearing_answer, insert_answers
from planner.assembly.doubts.mates.nut_answers import with_nuts
from planner.assembly.doubts.mates.peg_answers import peg_answers
from planner.assembly.pegs.pegs_in_bores import PegInBore
from planner.assembly.screw_heads import head_fits, sinks
from planner.job import Cord, Fit, Hardware, HardwareKind, Job, LeftOpen, StockSize
from planner.survey import Survey

USED: Mapping[float, float] = {2: 0.4, 2.5: 0.5, 3: 1.0, 4: 0.8, 5: 0.7, 6: 0.6, 8: 0.5}
"""How often each size is met in such devices, beside M3; common practice, no source."""
TIGHT_WEIGHT, COARSE_WEIGHT = 0.3, 0.4
"""Bores drawn at the screw's own size, and to the coarse series of ISO 273; common practice, no source."""
NEAR_MM = 0.1
LEAST_WEIGHT = 0.005
PILOT_SHARE, PILOT_NEAR = 0.83, 0.035
"""A pilot for plastics is usually drawn at this share of the screw's diameter; common practice, no source."""
DEEP, VERY_DEEP, SHALLOW = 4.0, 6.0, 1.5
"""Depth over diameter."""
SCREW, PIVOT = "-screw", "-pivot"
"""How the answers end that a screw holds its parts together, and that they turn on it."""
PIVOT_SHARE = 0.4
"""Weight of a screw that its parts turn on, beside one that holds them together; common practice, no source."""
CORD_MM = (0.9, 4.0)
LARGE_MM, WINDOW_MM = 8.5, 12.0
"""Bores wider than what is usually bought, and those that are windows; common practice, no source."""
PRINTED_PLAY_MM, PRINTED_WEIGHT = 0.8, 2.5
"""A printed pin goes through bores up to so much wider, and speaks so much for them; common practice, no source."""
DRAWN_THERE_FACTOR = 8.0
"""A printed pin that is drawn in one of the bores speaks so much more for itself; common practice, no source."""
PINS_MOST = 2
CORD_WORDS = frozenset(("anchor", "cord", "elastic", "guide", "pulley", "string", "tendon", "tensioner", "thread"))
LEAST_WEIGHT_SHARE = 0.05
"""Less likely answers are not offered."""
OFFERED_MOST = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """The device about a group of bores: what its other parts say of it."""

    pins_mm: tuple[tuple[str, float], ...]
    """Parts that are pins by form, with the thickness of each step that goes through bores."""
    cords: bool
    """Whether curved channels or names of parts speak of cords."""
    pegs: Mapping[tuple[str, str], PegInBore]
    """By part and bore, the peg of another part that may go in."""


def speaks_of_cords(job: Job, surveys: Mapping[str, Survey]) -> bool:
    """Return whether a device has curved channels, or parts whose names tell of cords."""
    words = {word for part in job.parts for word in re.findall(r"[a-z]+", part.name.lower())}
    return any(survey.channels for survey in surveys.values()) or bool(words & CORD_WORDS)


def bore_answers(group: BoreGroup, job: Job, scene: Scene) -> tuple[Answer, ...]:
    """Return what may go through a group of bores, likeliest first; nothing is always among it."""
    if group.bearing is not None:
        n = len(group.members)
        held = bearing_answer(group.bearing, group.size_mm, group.parts, n, _seats_open(group))
        return held, replace(nothing(group), weight_factor=1.0)
    found = _fitting(replace(group, wider=None), job, scene)
    if group.wider is not None:
        copies = {part.name: part.count for part in job.parts}
        found = axis_answers(group, group.wider, found, _fitting(group.wider, job, scene), copies, job.tables)
    found.sort(key=lambda answer: -answer.weight_factor)
    apart = [
        one for one in found if not one.name.endswith(PIVOT)
    ]  # a pivot is offered beside its screw, and crowds no other out
    whole = sum(answer.weight_factor for answer in apart)
    likely = [one for one in apart if one.weight_factor >= LEAST_WEIGHT_SHARE * whole and one.name != "nothing"]
    kept = [*likely[:OFFERED_MOST], *(one for one in found if one.name == "nothing")]
    screws = {one.name.replace(SCREW, PIVOT) for one in kept}
    kept += [one for one in found if one.name.endswith(PIVOT) and one.name in screws]
    return tuple(sorted(kept, key=lambda answer: -answer.weight_factor))


def _fitting(group: BoreGroup, job: Job, scene: Scene) -> list[Answer]:
    """Return all that fits in bores of one size, and nothing; in bores with a flat, only what has the same flat."""
    pegs = [scene.pegs.get((name, bore.id)) for name, bore in group.members]
    if keyed := [peg for peg in pegs if peg and peg.keyed]:
        return [*peg_answers(keyed), nothing(group)]
    found = [*_threads(group, job), *_pins(group, job, scene), *_inserts(group, job)]
    pins = {part for part, _ in scene.pins_mm}  # a part that is a pin is an answer of its own
    found += peg_answers([peg for peg in pegs if peg and peg.peg_part not in pins])
    if group.through:
        found += [*_screws(group, job), *_cords(group, scene)]
    return [*found, nothing(group)]


def _inserts(group: BoreGroup, job: Job) -> list[Answer]:
    """Return the threaded inserts that the bores are drawn for."""
    n, blind = len(group.members), not group.through
    found = insert_answers(group.size_mm, group.depth_mm, group.parts, n, job.tables, blind=blind)
    used = [USED.get(answer.hardware[0].diameter_mm, 0.4) for answer in found]
    return [
        replace(one, weight_factor=one.weight_factor * share, left_open=_seats_open(group))
        for one, share in zip(found, used, strict=True)
    ]


def nothing(group: BoreGroup) -> Answer:
    """Return the answer that the bores stay as they are."""
    size = group.size_mm
    weight = 0.07 if size < LARGE_MM else 0.6 if size < WINDOW_MM else 3.0
    if not group.through and group.depth_mm < size:
        weight *= 3.0
    opens = [LeftOpen(name=f"{group.called} of {size:g} mm", parts=group.parts, bore_mm=size), *_seats_open(group)]
    return Answer(name="nothing", text="nothing goes through", weight_factor=weight, left_open=tuple(opens))


def _seats_open(group: BoreGroup, screw_mm: float | None = None) -> tuple[LeftOpen, ...]:
    """Return the wider steps as openings, but for those that are seats for the head of the screw that goes through."""
    sizes = [
        size
        for size in dict.fromkeys(round(bore.drawn_diameter_mm, 2) for _, bore in group.seats)
        if screw_mm is None or not sinks(size, screw_mm)
    ]
    return tuple(
        LeftOpen(
            name=f"steps of {size:g} mm over {group.size_mm:g}",
            parts=tuple(dict.fromkeys(name for name, bore in group.seats if round(bore.drawn_diameter_mm, 2) == size)),
            bore_mm=size,
        )
        for size in sizes
    )


def _hardware(group: BoreGroup, job: Job, kind: HardwareKind, stock: StockSize, fit: Fit, what: str) -> Hardware:
    """Return the record of what goes through a group's bores."""
    copies = {part.name: part.count for part in job.parts}
    through = fit != "pilot"  # a thread is cut in one bore alone
    longest_mm = None if stock.longest_mm is None else stock.longest_mm.value
    count = group.pieces_n(copies, kind, longest_mm) if through else sum(copies[name] for name, _ in group.members)
    return Hardware(
        name=f"{what} in {'' if group.through else 'blind '}{group.size_mm:g} mm"
        + (f" of {group.parts[0]}" if group.apart else ""),
        kind=kind,
        diameter_mm=stock.diameter_mm.value,
        joins=group.parts,
        bore_mm=group.size_mm,
        fit=fit,
        count=count,
        guessed=("count",) if through and group.through and count > group.least_n(copies) else (),
    )


def _bell(off: float, near: float) -> float:
    """Return 1 where nothing is off, falling to 0.37 at ``near``."""
    return math.exp(-((off / near) ** 2))


def _screws(group: BoreGroup, job: Job) -> list[Answer]:
    """Return the machine screws that pass through: by the usual clearance bores, and by the seats of their heads."""
    found, deep = [], group.depth_mm / group.size_mm
    copies = {part.name: part.count for part in job.parts}
    for stock in job.tables.machine_screws:
        d = stock.diameter_mm.value
        weight = _clearance(group.size_mm, stock) * USED.get(d, 0.4) * _by_seat(group, d)
        weight *= (0.35 if deep > VERY_DEEP else 1.0) * (1.0 - (0.6 if group.lever else 0.3) * group.forked_share)
        name = f"{stock.label} screw"
        screw = Answer(
            name=f"{stock.label.lower()}-screw",
            text=f"an {name} with a nut goes through",
            weight_factor=weight,
            hardware=(replace(_hardware(group, job, "machine-screw", stock, "sliding", name), nut="plain"),),
            left_open=_seats_open(group, d),
        )
        found.append(with_nuts(screw, stock, group.pockets, copies, group.least_n(copies)))
        if len(group.parts) > 1:
            (shank,) = screw.hardware
            called = shank.name.replace(" screw in ", " pivot screw in ")
            turning = (replace(shank, name=called, fit="turning", nut="locking"),)
            text = f"an {name} with a locking nut is a pivot"
            pivot = screw.name.replace(SCREW, PIVOT)
            found.append(replace(screw, name=pivot, text=text, hardware=turning, weight_factor=PIVOT_SHARE * weight))
    return [one for one in found if one.weight_factor > LEAST_WEIGHT]


def _clearance(size_mm: float, stock: StockSize) -> float:
    """Return how usual a bore is for a screw: fine to medium of ISO 273 most, tighter ones and coarse ones less."""
    fine, medium, coarse = (bore.value for bore in stock.bores_mm[:3])
    if size_mm < fine:
        return max(_bell(size_mm - fine, NEAR_MM), TIGHT_WEIGHT if size_mm > stock.diameter_mm.value - 0.02 else 0.0)
    near = _bell(max(0.0, size_mm - medium), NEAR_MM)
    return max(near, COARSE_WEIGHT * _bell(max(0.0, size_mm - coarse), NEAR_MM))


def _by_seat(group: BoreGroup, d: float) -> float:
    """Return how the wider steps, or the countersinks, of a group speak for a screw."""
    sunk = [bore.countersink_mm for _, bore in group.members if bore.countersink_mm is not None]
    if sunk and min(sunk) > 1.6 * d:
        return 3.0
    fit = sum(head_fits(bore.drawn_diameter_mm, d) for _, bore in group.seats)
    return 1.0 + (2.0 * fit - 0.4 * (len(group.seats) - fit)) / len(group.members)


def _threads(group: BoreGroup, job: Job) -> list[Answer]:
    """Return the screws that cut their own thread: a pilot is drawn a sixth under the screw."""
    found, deep = [], group.depth_mm / group.size_mm
    long = 0.1 if deep < 1.0 else 0.3 if deep < SHALLOW else 1.3 if 2.5 < deep < 8.0 else 0.8
    stepped = len(group.seats) / len(group.members)
    place = long * (0.45 if group.through else 3.0) * max(0.2, 1.0 - 0.7 * stepped) * (1.0 - 0.8 * group.forked_share)
    for stock in job.tables.machine_screws:
        share = group.size_mm / stock.diameter_mm.value
        weight = _bell(share - PILOT_SHARE, PILOT_NEAR) * place * USED.get(stock.diameter_mm.value, 0.4)
        found.append(_thread(group, job, "machine-screw", stock, weight))
    for stock in job.tables.wood_screws:
        ends = printed_ends(stock.diameter_mm.value, "wood-screw", "pilot", job.limits, job.tables)
        if ends is not None and ends[0] <= group.size_mm <= ends[1] + 0.1:
            found.append(_thread(group, job, "wood-screw", stock, 0.3 * place))
    return [one for one in found if one.weight_factor > LEAST_WEIGHT]


def _thread(group: BoreGroup, job: Job, kind: HardwareKind, stock: StockSize, weight: float) -> Answer:
    """Return one screw that cuts its own thread."""
    label = stock.label if kind == "machine-screw" else f"{stock.label} wood"
    return Answer(
        name=f"{label.lower().replace('#', 'no').replace(' ', '-')}-thread",
        text=f"a{'n' if label[0] == 'M' else ''} {label} screw cuts its own thread",
        weight_factor=weight,
        hardware=(_hardware(group, job, kind, stock, "pilot", f"{label} screw, own thread,"),),
        left_open=_seats_open(group, stock.diameter_mm.value if kind == "machine-screw" else None),
    )


def _pins(group: BoreGroup, job: Job, scene: Scene) -> list[Answer]:
    """Return pins and rods, bought or printed: they turn where there is play, and are held where there is none."""
    found, deep = [], group.depth_mm / group.size_mm
    place = (
        (1.0 + (10.0 if group.lever else 3.0) * group.forked_share)
        * (3.0 if deep > VERY_DEEP else 1.5 if deep > DEEP else 1.0)
        * (1.0 if group.through else 0.5)
    )
    place *= max(0.3, 1.0 - len(group.seats) / len(group.members))
    sizes = {stock.diameter_mm.value: stock for stock in job.tables.dowel_pins}
    drawn_there = _drawn_there(group, scene)
    for part, d in [*(("", d) for d in sizes), *scene.pins_mm]:
        play = group.size_mm - d
        if not -0.03 <= play <= (PRINTED_PLAY_MM if part else 0.6):
            continue
        weight = (0.15 if play < 0.06 else 0.08) * place * (PRINTED_WEIGHT if part else 1.0)
        weight *= drawn_there.get(part, 1.0)
        fit: Fit = "held" if play < 0.06 else "sliding" if play < 0.25 and not group.forked_share else "turning"
        stock = sizes[min(sizes, key=lambda each: abs(each - d))]
        hardware = _hardware(group, job, "dowel-pin", stock, fit, f"printed {part}" if part else f"{d:g} mm pin")
        if part:  # as thick as it is drawn, and as many as are printed, whatever they go through
            hardware = replace(hardware, printed=part, diameter_mm=round(d, 2), count=job.part(part).count)
        does = {"held": "is held in it", "sliding": "slides in it", "turning": "turns in it"}[fit]
        found.append(
            Answer(
                name=f"printed-{part}" if part else f"{d:g}mm-pin",
                text=f"the printed {part} {does}" if part else f"a pin of {d:g} mm {does}",
                weight_factor=weight,
                hardware=(hardware,),
                left_open=_seats_open(group),
            )
        )
    return sorted(found, key=lambda one: -one.weight_factor)[
        : PINS_MOST + any(one.hardware[0].printed for one in found)
    ]


def _drawn_there(group: BoreGroup, scene: Scene) -> dict[str, float]:
    """Return how much more the parts speak for themselves whose pegs are drawn in the bores, by name."""
    pegs = (scene.pegs.get((name, bore.id)) for name, bore in group.members)
    return {peg.peg_part: DRAWN_THERE_FACTOR for peg in pegs if peg is not None and peg.in_place}


def _cords(group: BoreGroup, scene: Scene) -> list[Answer]:
    """Return a cord of half the bore's diameter: a long, narrow bore is a channel."""
    deep = group.depth_mm / group.size_mm
    if not CORD_MM[0] <= group.size_mm <= CORD_MM[1] or group.seats:
        return []
    weight = (0.03 if deep < VERY_DEEP else 0.4) * (4.0 if scene.cords else 1.0)
    thick = max(0.5, round(group.size_mm / 2, 1))
    cords = tuple(
        Cord(name=f"cord in {group.size_mm:g} mm of {part}", part=part, diameter_mm=thick, channel_mm=group.size_mm)
        for part in group.parts
    )
    return [Answer(name="cord", text=f"a cord of {thick:g} mm runs through", weight_factor=weight, cords=cords)]
