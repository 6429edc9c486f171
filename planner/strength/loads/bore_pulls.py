"""What load cases pull along the bores of screws and inserts: out of the part, which threads or heads alone resist."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from planner.assembly import Claim, coaxial
from planner.finding import Vec3
from planner.rules import BoreForce
from planner.strength.loads.part_load import LoadCase
from planner.strength.loads.pressed_edges import Footing
from planner.strength.loads.prying import SCREWS, Pried, pried


def bore_pulls(
    cases: Mapping[str, Sequence[LoadCase]],
    claims: Sequence[Claim],
    out: Mapping[tuple[str, str], Vec3],
    footing: Footing | None = None,
) -> Iterator[tuple[str, str, BoreForce]]:
    """Yield each pull along the bore of a screw or an insert, with part and bore.

    What hardware puts on a part along its bore, out of the part, pulls it out, or its head down on the part; the other
    way round it is pushed in. Where nothing tells which way is out, either may be, and that is asked. What a screw
    pulls at one part by its head, its thread takes in the other. With a ``footing``, prying is in it.
    """
    clamping = _clamping(claims)
    for claim in claims:
        if claim.hardware.kind not in SCREWS:
            continue
        clamps = claim.hardware.name in clamping
        for case in cases.get(claim.part, ()):
            for pull in _pulls(case, claim, out, footing, clamps=clamps):
                yield claim.part, claim.bore.id, pull
        if holds_itself(claim):
            for pull in _through_others(cases, claims, claim, out, footing, clamps=clamps):
                yield claim.part, claim.bore.id, pull


def holds_itself(claim: Claim) -> bool:
    """Return whether a piece of hardware holds in a bore by what it cuts or presses into the plastic there."""
    return claim.fit == "pilot" or claim.hardware.kind == "insert"


def _clamping(claims: Sequence[Claim]) -> set[str]:
    """Return the names of what clamps its parts onto each other: no part turns on it."""
    turning = {one.hardware.name for one in claims if one.fit == "turning"}
    return {one.hardware.name for one in claims if one.hardware.kind in SCREWS} - turning


def _pulls(
    case: LoadCase,
    claim: Claim,
    out: Mapping[tuple[str, str], Vec3],
    footing: Footing | None,
    *,
    clamps: bool,
) -> Iterator[BoreForce]:
    """Yield what a case pulls along one bore: what is known, and what more nobody has ruled out."""
    way = out.get((claim.part, claim.bore.id))
    if way is not None:
        found = pried(case, claim, way, footing, clamps=clamps)
        yield from () if found is None else _told(found, case, claim)
        return
    x, y, z = claim.bore.axis
    both = [pried(case, claim, one, footing, clamps=clamps) for one in ((x, y, z), (-x, -y, -z))]
    worst = max((one for one in both if one is not None), key=lambda one: one.feared_n, default=None)
    if worst is not None:
        yield from (_either_way(pull, claim) for pull in _told(worst, case, claim))


def _told(found: Pried, case: LoadCase, claim: Claim) -> Iterator[BoreForce]:
    """Yield a pull as it is known, then the most that nobody has ruled out."""
    said = f"under {case.said}"
    if found.known_n:
        yield BoreForce(force_n=0.0, pull_n=found.known_n, said=said + found.said(claim.part), asks=case.asks)
    if found.asks and found.feared_n > found.known_n:
        said = f"{said}, as far as the edge of {claim.part} presses beside it"
        yield BoreForce(force_n=0.0, pull_n=found.feared_n, said=said, asks=case.asks or found.asks)


def _through_others(
    cases: Mapping[str, Sequence[LoadCase]],
    claims: Sequence[Claim],
    screw: Claim,
    out: Mapping[tuple[str, str], Vec3],
    footing: Footing | None,
    *,
    clamps: bool,
) -> Iterator[BoreForce]:
    """Yield the greatest pull that another part puts on a screw by its head: that is known, and that may be."""
    others = [
        one
        for one in claims
        if one.hardware.name == screw.hardware.name and one.part != screw.part and not holds_itself(one)
    ]
    found = list[tuple[BoreForce, bool]]()
    for other in [one for one in others if coaxial(one.bore, screw.bore)] or others:
        told = (other.part, other.bore.id) in out
        for case in cases.get(other.part, ()):
            for pull in _pulls(case, other, out, footing, clamps=clamps):
                found.append((replace(pull, said=f"through {other.part} {pull.said}"), told))
    for asked in (False, True):
        mine = [one for one, told in found if (bool(one.asks) or not told) is asked and one.pull_n > 0.0]
        if mine:
            most = max(mine, key=lambda one: one.pull_n)
            yield _either_way(most, screw) if asked else most


def _either_way(pull: BoreForce, claim: Claim) -> BoreForce:
    """Return a pull whose way nobody told: at its worst it is outward, and that is a question."""
    asks = pull.asks or (
        f"Does the load pull {claim.hardware.name} out of {claim.bore.id} of {claim.part}, or press it in?"
    )
    return replace(pull, pull_n=abs(pull.pull_n), asks=asks)
