"""Bind the rules of seats, running gaps and strap slots."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planner.assembly import SEATS, bores_near, stock_of
from planner.finding import Finding, Guess, Vec3, Verdict
from planner.job import Gap, Hardware, Job, Strap
from planner.rules.bind.bind_bores import undersize_of
from planner.rules.fit.fitted_openings import GapLoose, GapTight, SeatTight, SlotTight
from planner.rules.rule import ConstantFinding, Rule
from planner.survey import Bore, Slot, Survey

HEXAGON = 6
"""Facets of a nut's pocket; its inscribed diameter is the width across flats."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningRules:
    """Rules with what had to be guessed for them; ``bores`` (part, id) are claimed, ``slots`` (part, index) too."""

    rules: tuple[Rule, ...]
    guesses: tuple[Guess, ...] = ()
    bores: frozenset[tuple[str, str]] = frozenset()
    slots: frozenset[tuple[str, int]] = frozenset()


def seat_rules(job: Job, surveys: Mapping[str, Survey], downs: Mapping[str, Vec3]) -> OpeningRules:
    """Bind ``seat.tight`` for every nut, washer and insert in every part it sits in."""
    rules: list[Rule] = []
    guesses, claimed = [], set()
    for hardware in (h for h in job.hardware if h.kind in SEATS):
        size = seat_size(job, hardware)
        for part in hardware.joins:
            bores = pockets_of(job, hardware, surveys[part])
            claimed |= {(part, bore.id) for bore in bores}
            if size is None or hardware.bore_mm is None:
                why = "its size is in no table" if size is None else "its pocket as drawn (bore_mm) is not stated"
                rules.append(missing("seat.missing", part, hardware.name, why, "state bore_mm and size_mm"))
                continue
            pocket = min((bore.diameter_mm for bore in bores), default=hardware.bore_mm)
            if not bores:
                why = "no pocket of that size was recognised, so the size stated is taken"
                guesses.append(Guess(what=f"seat of {hardware.name} in {part}", value=f"{pocket:g} mm", why=why))
            axis = bores[0].axis if bores else None
            rules.append(
                SeatTight(
                    part=part,
                    feature=f"seat {hardware.name}",
                    hardware=hardware.name,
                    pocket_mm=pocket,
                    at_mm=bores[0].centre_mm if bores else None,
                    undersize_mm=undersize_of(job, axis, downs[part])[0],
                    size_mm=size,
                    clearance_mm=job.limits.seat_clearance_mm,
                )
            )
    return OpeningRules(rules=tuple(rules), guesses=tuple(guesses), bores=frozenset(claimed))


def pockets_of(job: Job, hardware: Hardware, survey: Survey) -> tuple[Bore, ...]:
    """Return the round pockets, or for a nut the hexagonal ones, of the size stated through the corners."""
    if hardware.bore_mm is None:
        return ()
    round_ones = bores_near(survey, hardware.bore_mm, job.limits)
    if round_ones or hardware.kind != "nut":
        return round_ones
    slack = job.limits.bore_match_percent.value / 100.0 * hardware.bore_mm
    return tuple(
        pocket
        for pocket in survey.possible_bores
        if pocket.facets_n == HEXAGON and abs(pocket.drawn_diameter_mm - hardware.bore_mm) <= slack
    )


def seat_size(job: Job, hardware: Hardware) -> float | None:
    """Return what must go into the seat: flats of a nut, outside of a washer or insert."""
    if hardware.size_mm is not None:
        return hardware.size_mm
    stock = stock_of(job.tables, "machine-screw", hardware.diameter_mm)
    table = {"nut": stock and stock.nut_flats_mm, "washer": stock and stock.washer_mm}.get(hardware.kind)
    if hardware.kind == "insert":
        return hardware.diameter_mm
    return table.value if table else None


def gap_rules(job: Job, measured_mm: Mapping[tuple[str, str], float | None]) -> OpeningRules:
    """Bind the gap rules; ``measured_mm`` are gaps between the meshes as drawn, where the job states none."""
    rules: list[Rule] = []
    guesses = []
    for gap in job.gaps:
        name, part = f"{gap.between[0]} to {gap.between[1]}", gap.between[0]
        drawn = gap.drawn_mm if gap.drawn_mm is not None else measured_mm.get(gap.between)
        if drawn is None:
            why = "it is not stated, and the meshes as drawn do not lie beside each other"
            rules.append(missing("gap.missing", part, name, why, "state drawn_mm"))
            continue
        if gap.drawn_mm is None:
            why = "drawn_mm is not stated; least distance between the meshes as drawn"
            guesses.append(Guess(what=f"running gap {name}", value=f"{drawn:.2f} mm", why=why))
        rules += _gap_pair(job, gap, name, drawn)
    return OpeningRules(rules=tuple(rules), guesses=tuple(guesses))


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
        elif not mine:
            why = "no slot of that length was recognised, so the length stated is taken"
            guesses.append(Guess(what=f"slot of {strap.name}", value=f"{drawn:.2f} mm", why=why))
        rules.append(
            SlotTight(
                part=strap.part,
                feature=f"slot {strap.name}",
                strap=strap.name,
                slot_mm=min((slots[index].length_mm for index in mine), default=drawn)
                if strap.slot_mm is None
                else drawn,
                at_mm=slots[mine[0]].at_mm if mine else None,
                webbing_mm=strap.webbing_mm,
                narrower_mm=next((w for w in job.tables.webbing_mm if w < strap.webbing_mm), None),
                clearance_mm=job.limits.slot_clearance_mm,
            )
        )
    return OpeningRules(rules=tuple(rules), guesses=tuple(guesses), slots=frozenset(claimed))


def slots_for(job: Job, strap: Strap, slots: tuple[Slot, ...]) -> tuple[float | None, list[int]]:
    """Return a strap's slot as drawn, and which of a part's slots are of that length within the matching share."""
    drawn = strap.slot_mm or _nearest_slot(strap, slots)
    if drawn is None:
        return None, []
    slack = job.limits.bore_match_percent.value / 100 * drawn
    return drawn, [index for index, slot in enumerate(slots) if abs(slot.length_mm - drawn) <= slack]


def _nearest_slot(strap: Strap, slots: tuple[Slot, ...]) -> float | None:
    """Return the length of the slot that fits the webbing best."""
    return min((slot.length_mm for slot in slots), key=lambda length: abs(length - strap.webbing_mm - 1), default=None)


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
