"""Hexagonal pockets at the ends of screws' bores: nobody named a nut for them, and their form does."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.assembly import CLAMPED, Claim, pockets_on, stays_open, stock_of, takes_nut
from planner.finding import Vec3
from planner.job import Job
from planner.rules.fit.seat_tight import SeatTight
from planner.rules.of_job.bore_rules import undersize_of
from planner.rules.of_job.opening_rules import OpeningRules
from planner.survey import Survey


def nut_pocket_rules(
    job: Job,
    surveys: Mapping[str, Survey],
    downs: Mapping[str, Vec3],
    claims: Sequence[Claim],
    taken: frozenset[tuple[str, str]],
) -> OpeningRules:
    """Bind ``seat.tight`` for the free nut of a screw in a pocket that is drawn for it, at an end of its bore.

    ``taken`` are the pockets that the job names a nut for. What does not fit is a hold: the nut may lie elsewhere.
    """
    found: dict[tuple[str, str], SeatTight] = {}
    for claim in claims:
        stock = stock_of(job.tables, CLAMPED, claim.hardware.diameter_mm)
        if claim.hardware.kind != CLAMPED or claim.hardware.nut is None or stock is None or stock.nut_flats_mm is None:
            continue
        for pocket in pockets_on(surveys[claim.part], claim.bore):
            key = claim.part, pocket.id
            if key in taken or not takes_nut(pocket, stock) or stays_open(job, claim.part, pocket, stated=True):
                continue
            found[key] = SeatTight(
                part=claim.part,
                feature=pocket.id,
                hardware=f"the nut of {claim.hardware.name}",
                pocket_mm=pocket.diameter_mm,
                at_mm=pocket.centre_mm,
                undersize_mm=undersize_of(job, pocket.axis, downs[claim.part])[0],
                size_mm=stock.nut_flats_mm.value,
                clearance_mm=job.limits.seat_clearance_mm,
                supposed=True,
                file_mm=job.limits.slot_file_mm,
                hexagon=True,
            )
    return OpeningRules(rules=tuple(found.values()), bores=frozenset(found))
