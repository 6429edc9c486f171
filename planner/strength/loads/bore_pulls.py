"""What load cases pull along the bores of screws and inserts: out of the part, which their threads alone resist."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from planner.assembly import Claim
from planner.finding import Vec3
from planner.rules import BoreForce
from planner.strength.loads.load_cases import AT_PLACE_MM
from planner.strength.loads.part_load import LoadCase, PartLoad
from planner.survey import Bore

LEAST_SHARE = 1e-3
"""A pull of less than this share of the greatest load is how exactly a mesh tells an axis, 0.06°; no source."""


def bore_pulls(
    cases: Mapping[str, Sequence[LoadCase]], claims: Sequence[Claim], out: Mapping[tuple[str, str], Vec3]
) -> Iterator[tuple[str, str, BoreForce]]:
    """Yield each pull along the bore of what holds by its own thread, with part and bore.

    What hardware puts on a part along its bore, out of the part, pulls it out; the other way round it is pushed in.
    Where nothing tells which way is out, either may be, and that is asked. What a screw is known to pull at one part
    by its head, its thread takes in the other: which way that goes is asked as well.
    """
    mine = [one for one in claims if holds_itself(one)]
    for claim in mine:
        where = out.get((claim.part, claim.bore.id))
        for case in cases.get(claim.part, ()):
            along_n = _along_n(case, claim.bore, claim.bore.axis if where is None else where)
            if along_n:
                pull = BoreForce(force_n=0.0, pull_n=along_n, said=f"under {case.said}", asks=case.asks)
                yield claim.part, claim.bore.id, pull if where is not None else _either_way(pull, claim)
        for pull in _through_others(cases, claims, claim):
            yield claim.part, claim.bore.id, _either_way(pull, claim)


def holds_itself(claim: Claim) -> bool:
    """Return whether a piece of hardware holds in a bore by what it cuts or presses into the plastic there."""
    return claim.fit == "pilot" or claim.hardware.kind == "insert"


def _through_others(
    cases: Mapping[str, Sequence[LoadCase]], claims: Sequence[Claim], screw: Claim
) -> Iterator[BoreForce]:
    """Yield the greatest that another part is known to put on a screw along its axis."""
    found = []
    for other in claims:
        if other.hardware.name != screw.hardware.name or other.part == screw.part or holds_itself(other):
            continue
        for case in cases.get(other.part, ()):
            along_n = abs(_along_n(case, other.bore, other.bore.axis))
            if along_n and not case.asks:
                found.append(BoreForce(force_n=0.0, pull_n=along_n, said=f"through {other.part} under {case.said}"))
    if found:
        yield max(found, key=lambda one: one.pull_n)


def _either_way(pull: BoreForce, claim: Claim) -> BoreForce:
    """Return a pull whose way nobody told: at its worst it is outward, and that is a question."""
    asks = pull.asks or (
        f"Does the load pull {claim.hardware.name} out of {claim.bore.id} of {claim.part}, or press it in?"
    )
    return replace(pull, pull_n=abs(pull.pull_n), asks=asks)


def _along_n(case: LoadCase, bore: Bore, way: Vec3) -> float:
    """Return what a case's loads in a bore come to along a unit vector; 0 where that is rounding."""
    along_n = float(sum(np.dot(load.force_n, way) for load in case.every if _in_it(load, bore)))
    most_n = max(float(np.linalg.norm(load.force_n)) for load in case.every)
    return along_n if abs(along_n) > LEAST_SHARE * most_n else 0.0


def _in_it(load: PartLoad, bore: Bore) -> bool:
    """Return whether a load comes in by what sits in a bore: by its name, or as near to its middle as a support."""
    if load.over:
        return load.over == bore.id
    return float(np.linalg.norm(np.subtract(load.at_mm, bore.centre_mm))) <= AT_PLACE_MM
