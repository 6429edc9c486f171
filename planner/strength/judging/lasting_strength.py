"""What is left of a strength that a short test at room temperature gives: under heat, lasting and repeated loads."""

from __future__ import annotations

from dataclasses import dataclass

from planner.job import Job, Material
from planner.rules import hottest

ROOM_C = 23.0
"""Strengths are those of coupons tested at this temperature (ISO 291)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lasting:
    """One thing that takes strength away: ``share`` of it is left, 0 to 1."""

    name: str
    share: float
    source: str


def lasting_of(job: Job, material: Material) -> tuple[Lasting, ...]:
    """Return what is left of a strength in the hottest place that is stated, when a load stays on, and when it repeats.

    The yield stress of a glassy polymer falls about straight with temperature, to nothing where it softens
    (Bauwens-Crowet, Bauwens and Homès 1969, from memory).

    They multiply: a load that stays on in a hot place leaves the product of both.
    """
    limits, heat, found = job.limits, hottest(job), list[Lasting]()
    if heat is not None and heat.hottest_c > ROOM_C:
        softens_c = material.softens_c.value
        left = max((softens_c - heat.hottest_c) / (softens_c - ROOM_C), 0.0) if softens_c > ROOM_C else 0.0
        source = f"straight down to nothing at {softens_c:g} °C, where {material.name} softens (from memory)"
        found.append(Lasting(name=f"at {heat.hottest_c:g} °C", share=left, source=source))
    for name, sourced in (
        ("after 1000 h under the load", limits.creep_share),
        ("after a million loads", limits.fatigue_share),
    ):
        found.append(Lasting(name=name, share=sourced.value, source=sourced.source))
    return tuple(found)
