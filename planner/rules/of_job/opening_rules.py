"""Bind the rules of seats, running gaps and strap slots."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.assembly import HEXAGON, SEATS, bores_near, stock_of
from planner.finding import Finding, Guess, Vec3, Verdict
from planner.job import Gap, Hardware, Job, Strap
from planner.rules.fit.fitted_openings import GapLoose, GapTight, SlotTight
from planner.rules.fit.seat_tight import SeatTight
from planner.rules.of_job.bore_rules import undersize_of
from planner.rules.of_job.stated_differs import differs
from planner.rules.rule import ConstantFinding, Rule
from planner.survey import Bore, Slot, Survey

ROUNDED_MM = 0.01
"""A file's single precision and the facets of its curves move a length by less."""
LIKE_SHARE = 0.6
"""An opening this far from a stated size may still be the one that is meant."""
GAP_APART_SHARE = 0.15
GAP_APART_MM = 0.05
"""A measured gap this near to the stated one agrees: facets of pin and bore alone take as much."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningRules:
    """Rules with what had to be guessed for them; ``bores`` (part, id) are claimed, ``slots`` (part, index) too."""

    rules: tuple[Rule, ...]
    guesses: tuple[Guess, ...] = ()
    bores: frozenset[tuple[str, str]] = frozenset()
    slots: frozenset[tuple[str, int]] = frozenset()


def seat_rules(
    job: Job,
    surveys: Mapping[str, Survey],
    downs: Mapping[str, Vec3],
    taken: frozenset[tuple[str, str]] = frozenset(),
) -> OpeningRules:
    """Bind ``seat.tight`` for every nut, washer and insert in every part it sits in.

    ``taken`` are bores that hardware goes through: none of them is the pocket that a contradicted seat means.
    """
    rules: list[Rule] = []
    guesses: list[Guess] = []
    claimed: set[tuple[str, str]] = set()
    for hardware in (h for h in job.hardware if h.kind in SEATS):
        size = seat_size(job, hardware)
        flats = tuple((d.diameter_mm.value, d.nut_flats_mm.value) for d in job.tables.machine_screws if d.nut_flats_mm)
        for part in hardware.joins:
            bores = pockets_of(job, hardware, surveys[part])
            claimed |= {(part, bore.id) for bore in bores}
            if size is None or hardware.bore_mm is None:
                why = "its size is in no table" if size is None else "its pocket as drawn (bore_mm) is not stated"
                rules.append(missing("seat.missing", part, hardware.name, why, "state bore_mm and size_mm"))
                continue
            if not bores:
                rules.append(_no_such_pocket(hardware, hardware.bore_mm, surveys[part], taken))
                continue
            rules.append(
                SeatTight(
                    part=part,
                    feature=f"seat {hardware.name}",
                    hardware=hardware.name,
                    pocket_mm=min(bore.diameter_mm for bore in bores),
                    at_mm=bores[0].centre_mm,
                    undersize_mm=undersize_of(job, bores[0].axis, downs[part])[0],
                    size_mm=size,
                    clearance_mm=job.limits.seat_clearance_mm,
                    flats=flats,
                    hexagon=hardware.kind == "nut" and all(bore.facets_n == HEXAGON for bore in bores),
                    file_mm=None if hardware.kind == "insert" else job.limits.slot_file_mm,
                )
            )
    return OpeningRules(rules=tuple(rules), guesses=tuple(guesses), bores=frozenset(claimed))


def pockets_of(job: Job, hardware: Hardware, survey: Survey) -> tuple[Bore, ...]:
    """Return the round pockets, or for a nut the hexagonal ones, of the size stated through the corners."""
    if hardware.bore_mm is None:
        return ()
    round_ones = bores_near(survey, hardware.bore_mm, job.limits, hardware.bores)
    if round_ones or hardware.kind != "nut":
        return round_ones
    slack = job.limits.bore_match_percent.value / 100.0 * hardware.bore_mm
    return tuple(
        pocket
        for pocket in survey.possible_bores
        if pocket.facets_n == HEXAGON and abs(pocket.named_mm - hardware.bore_mm) <= slack
    )


def _no_such_pocket(hardware: Hardware, stated_mm: float, survey: Survey, taken: frozenset[tuple[str, str]]) -> Rule:
    """Return the hold of a seat that the mesh has not, with the pocket that comes nearest to it."""
    round_ones = [bore for bore in survey.bores if (survey.name, bore.id) not in taken]
    hexagons = [bore for bore in survey.possible_bores if hardware.kind == "nut" and bore.facets_n == HEXAGON]
    like = [bore for bore in hexagons or round_ones if abs(bore.drawn_diameter_mm / stated_mm - 1.0) < LIKE_SHARE]
    near = min(like, key=lambda bore: abs(bore.drawn_diameter_mm - stated_mm), default=None)
    return differs(
        part=survey.name,
        feature=f"seat {hardware.name}",
        what=f"seat of {hardware.name}",
        key="bore_mm",
        stated_mm=stated_mm,
        measured_mm=near.drawn_diameter_mm if near else None,
        at_mm=near.centre_mm if near else None,
        doubt="" if near else ", or is it of a shape that is not recognised (open at one side)",
    )


def seat_size(job: Job, hardware: Hardware) -> float | None:
    """Return what must go into the seat: flats of a nut, outside of a washer."""
    if hardware.size_mm is not None:
        return hardware.size_mm
    stock = stock_of(job.tables, "machine-screw", hardware.diameter_mm)
    table = {"nut": stock and stock.nut_flats_mm, "washer": stock and stock.washer_mm}.get(hardware.kind)
    return table.value if table else None


def gap_rules(job: Job, measured_mm: Mapping[tuple[str, str], float | None]) -> OpeningRules:
    """Bind the gap rules.

    ``measured_mm`` are gaps between the meshes as drawn: where the job states none, and where the meshes stand in
    place so that they can be compared with what it states.
    """
    rules: list[Rule] = []
    guesses = []
    for gap in job.gaps:
        name, part = f"{gap.between[0]} to {gap.between[1]}", gap.between[0]
        measured = measured_mm.get(gap.between)
        if gap.drawn_mm is not None and measured is not None and _apart(gap.drawn_mm, measured):
            rules.append(
                differs(
                    part=part,
                    feature=name,
                    what=f"running gap {name}",
                    key="drawn_mm",
                    stated_mm=gap.drawn_mm,
                    measured_mm=measured,
                    doubt=", the least distance between the two",
                )
            )
            continue
        drawn = gap.drawn_mm if gap.drawn_mm is not None else measured
        if drawn is None:
            why = "it is not stated, and the meshes as drawn do not lie beside each other"
            rules.append(missing("gap.missing", part, name, why, "state drawn_mm"))
            continue
        if gap.drawn_mm is None:
            why = "drawn_mm is not stated; least distance between the meshes as drawn"
            guesses.append(Guess(what=f"running gap {name}", value=f"{drawn:.2f} mm", why=why))
        rules += _gap_pair(job, gap, name, drawn)
    return OpeningRules(rules=tuple(rules), guesses=tuple(guesses))


def _apart(stated_mm: float, measured_mm: float) -> bool:
    """Return whether a measured gap contradicts the stated one."""
    return abs(measured_mm - stated_mm) > max(GAP_APART_MM, GAP_APART_SHARE * stated_mm)


def _gap_pair(job: Job, gap: Gap, name: str, drawn_mm: float) -> list[Rule]:
    """Return both rules of one gap."""
    least, calibrated = job.printer.least_gap_mm, job.printer.calibrated
    part = gap.between[0]
    return [
        GapTight(part=part, feature=name, gap_mm=drawn_mm, least_mm=least, calibrated=calibrated),
        GapLoose(part=part, feature=name, gap_mm=drawn_mm, most_mm=job.limits.gap_loose_mm),
    ]


def slot_rules(job: Job, surveys: Mapping[str, Survey]) -> OpeningRules:
    """Bind ``slot.tight`` for every strap; slots are claimed by their length within the matching share."""
    rules: list[Rule] = []
    guesses, claimed = [], set()
    for strap in job.straps:
        slots = surveys[strap.part].slots
        drawn, mine = slots_for(job, strap, slots)
        if drawn is None:
            why = "slot_mm is not stated and no slot was recognised"
            rules.append(missing("slot.missing", strap.part, strap.name, why, "state slot_mm"))
            continue
        claimed |= {(strap.part, index) for index in mine}
        if strap.slot_mm is None:
            why = "slot_mm is not stated; nearest slot that was recognised"
            guesses.append(Guess(what=f"slot of {strap.name}", value=f"{drawn:.2f} mm", why=why))
        elif not mine and not slots and surveys[strap.part].unrecognised_n:
            why = "an opening of the part was not recognised: it may be this slot, so the length stated is taken"
            guesses.append(Guess(what=f"slot of {strap.name}", value=f"{drawn:.2f} mm", why=why))
        elif not mine:
            rules.append(_no_such_slot(strap, drawn, slots))
            continue
        rules.append(
            SlotTight(
                part=strap.part,
                feature=f"slot {strap.name}",
                strap=strap.name,
                opening_mm=_judged_mm(drawn, [slots[index].length_mm for index in mine]),
                at_mm=slots[mine[0]].at_mm if mine else None,
                strip_mm=strap.webbing_mm,
                narrower_mm=tuple(w for w in job.tables.webbing_mm if w < strap.webbing_mm),
                clearance_mm=job.limits.slot_clearance_mm,
            )
        )
    return OpeningRules(rules=tuple(rules), guesses=tuple(guesses), slots=frozenset(claimed))


def _judged_mm(drawn_mm: float, measured_mm: Sequence[float]) -> float:
    """Return the length to judge: the shortest slot's own, the stated one where they differ by rounding alone."""
    shortest = min(measured_mm, default=drawn_mm)
    return drawn_mm if abs(shortest - drawn_mm) < ROUNDED_MM else shortest


def _no_such_slot(strap: Strap, stated_mm: float, slots: tuple[Slot, ...]) -> Rule:
    """Return the hold of a slot that the mesh has not, with the one that comes nearest to it."""
    near = min(slots, key=lambda slot: abs(slot.length_mm - stated_mm), default=None)
    return differs(
        part=strap.part,
        feature=f"slot {strap.name}",
        what=f"slot of {strap.name}",
        key="slot_mm",
        stated_mm=stated_mm,
        measured_mm=near.length_mm if near else None,
        at_mm=near.at_mm if near else None,
        doubt="" if near else ", or is it open at one side",
    )


def slots_for(job: Job, strap: Strap, slots: tuple[Slot, ...]) -> tuple[float | None, list[int]]:
    """Return a strap's slot as drawn, and which of a part's slots are of that length within the matching share."""
    drawn = strap.slot_mm or _nearest_slot(strap, slots)
    if drawn is None:
        return None, []
    slack = job.limits.bore_match_percent.value / 100 * drawn
    return drawn, [index for index, slot in enumerate(slots) if abs(slot.named_mm - drawn) <= slack]


def _nearest_slot(strap: Strap, slots: tuple[Slot, ...]) -> float | None:
    """Return the length of the slot that fits the webbing best."""
    return min((slot.named_mm for slot in slots), key=lambda length: abs(length - strap.webbing_mm - 1), default=None)


def missing(rule: str, part: str, name: str, why: str, remedy: str) -> ConstantFinding:
    """Return a hold for a check that has nothing to measure."""
    finding = Finding(
        rule=rule,
        part=part,
        feature=name,
        verdict=Verdict.HOLD,
        why=f"{name} in {part} cannot be checked: {why}",
        remedy=remedy,
        source="job file",
        question=f"How wide is the opening for {name} in {part}, as drawn, in mm?",
    )
    return ConstantFinding(finding=finding, feature=name)
