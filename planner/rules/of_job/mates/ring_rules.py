"""Bind the rule of printed pegs in what is bought with a bore: bearings, washers, nuts and inserts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from planner.assembly import Claim, PegInRing, peg_in_ring, stock_of
from planner.finding import Vec3
from planner.job import Hardware, Job
from planner.rules.fit.bearings.bearing_peg import BearingPeg, OtherRing
from planner.rules.of_job.bore_rules import undersize_of
from planner.rules.of_job.mates.outside_work import sanded_mm
from planner.rules.of_job.opening_rules import pockets_of
from planner.survey import Bore, Survey

Seat = tuple[str, Bore, Hardware]
"""A part, the bore in it, and what sits there."""


def ring_rules(
    job: Job, surveys: Mapping[str, Survey], downs: Mapping[str, Vec3], claims: Sequence[Claim]
) -> tuple[list[BearingPeg], frozenset[tuple[str, str]]]:
    """Return a rule for every peg in such a bore, and the seats, by part and bore, that one was found for."""
    rules: dict[tuple[str, str], BearingPeg] = {}
    filled = set()
    for part, seat, hardware in _seats(job, surveys, claims):
        hole_mm = hole_of(job, hardware)
        found = None if hole_mm is None else peg_in_ring(job, surveys, part, seat, hardware, hole_mm)
        if found is None:
            continue
        filled.add((part, seat.id))
        key = found.peg_part, f"{found.peg.id} in {hardware.name}"
        if key not in rules or (found.in_place and not rules[key].in_place):
            rules[key] = _rule(job, found, key[1], downs[part])
    return list(rules.values()), frozenset(filled)


def hole_of(job: Job, hardware: Hardware) -> float | None:
    """Return the bore of what is bought: of a nut or an insert within its thread; None where that is in no table."""
    if hardware.kind in ("bearing", "washer"):
        return hardware.diameter_mm
    stock = stock_of(job.tables, "machine-screw", hardware.diameter_mm)
    return stock.root_mm.value if stock is not None and stock.root_mm is not None else None


def _seats(job: Job, surveys: Mapping[str, Survey], claims: Sequence[Claim]) -> Iterator[Seat]:
    """Yield every seat of a bearing, an insert, a washer or a nut."""
    for claim in claims:
        if claim.hardware.kind in ("bearing", "insert"):
            yield claim.part, claim.bore, claim.hardware
    for hardware in job.hardware:
        if hardware.kind in ("nut", "washer"):
            for part in hardware.joins:
                for pocket in pockets_of(job, hardware, surveys[part]):
                    yield part, pocket, hardware


def _rule(job: Job, found: PegInRing, feature: str, down: Vec3) -> BearingPeg:
    """Return the rule of one peg."""
    bearing = found.hardware.kind == "bearing"
    return BearingPeg(
        part=found.peg_part,
        feature=feature,
        peg=found.peg,
        ring=found.hardware.name,
        seat_part=found.part,
        hole_mm=found.hole_mm,
        in_place=found.in_place,
        sure=found.sure,
        spread_mm=job.limits.of("bearing.peg", "spread_mm"),
        sand_mm=job.limits.of("bearing.peg", "sand_mm"),
        play_mm=job.limits.of("bearing.peg", "play_mm") if bearing else None,
        sleeve_mm=job.limits.bush_wall_mm,
        sanded_mm=sanded_mm(job, found.peg_part, found.peg, found.part),
        others=tuple(_others(job, found, down)) if bearing else (),
    )


def _others(job: Job, found: PegInRing, down: Vec3) -> Iterator[OtherRing]:
    """Yield the stock bearings with another bore, with the sizes at which the seat prints as wide as they are.

    Up to what a drill widens it, and to the play that what is held may have.
    """
    off_mm = undersize_of(job, found.seat.axis, down)[0].value
    drill_mm, play_mm = job.limits.of("bearing.peg", "sand_mm").value, job.limits.play_held_mm.value
    seat_mm = found.seat.diameter_mm
    for stock in job.tables.bearings:
        if stock.outside_mm is not None and stock.diameter_mm.value != found.hole_mm:
            outside_mm = stock.outside_mm.value
            yield OtherRing(
                label=stock.label,
                hole_mm=stock.diameter_mm.value,
                low_factor=(outside_mm - drill_mm + off_mm) / seat_mm,
                high_factor=(outside_mm + play_mm + off_mm) / seat_mm,
            )
