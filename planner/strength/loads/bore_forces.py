"""The forces on every bore of loaded parts, from their load cases and from the pins of joints that cords drive."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from planner.assembly import Claim
from planner.finding import Vec3
from planner.rules import PIN, BoreForce, Forces
from planner.strength.loads.bore_pulls import bore_pulls
from planner.strength.loads.part_load import LoadCase, PartLoad
from planner.strength.loads.pressed_edges import Footing
from planner.survey import Bore

ON_AXIS_MM = 0.5
"""A load this near to a bore's axis, as a pin's, presses its wall."""
PARALLEL_COS = 0.999
LEVER_RATIO = 3.0
"""A lever of two to one puts so many times its load on its pivot, F (1 + a/b) (statics). That two: no source."""
LEFT_RATIO = 0.25
"""A moment about a bore counts as left over from this share of the greatest there: less is friction. No source."""
NOTHING = BoreForce(force_n=0.0, said="")


def bore_forces(
    cases: Mapping[str, Sequence[LoadCase]],
    claims: Sequence[Claim],
    held: Mapping[tuple[str, str], float],
    held_n: float,
    out: Mapping[tuple[str, str], Vec3] | None = None,
    footing: Footing | None = None,
) -> Forces:
    """Return what bores of loaded parts, and printed pins, take under each load case: by part and bore.

    A part that turns about one bore, of which nothing tells what holds it against turning, might be a lever of any
    length: its bore gets what a lever of two to one would put on it, with its question. What one part is known to put
    on a piece of hardware, that puts on the other parts that it goes through.

    Parameters
    ----------
    cases
        The load cases of every part.
    held
        What the bores on pins of driven joints take while ``held_n`` is held at the tip, by part and bore.
    out
        The unit vector out of a part along a bore, by part and bore; left out where it is not known.
    footing
        What tells where parts press beside their screws; None where nothing does.
    """
    found: dict[str, dict[str, tuple[BoreForce, ...]]] = {}
    passed: dict[str, tuple[str, BoreForce]] = {}

    def add(part: str, feature: str, forces: Sequence[BoreForce]) -> None:
        mine = found.setdefault(part, {})
        mine[feature] = (*mine.get(feature, ()), *(one for one in forces if one.force_n > 0.0 or one.pull_n))

    for claim in claims:
        every, held_here_n = cases.get(claim.part, ()), held.get((claim.part, claim.bore.id), 0.0)
        forces = [_force(case, [claim.bore]) for case in every]
        if held_here_n > 0.0:
            forces.append(BoreForce(force_n=held_here_n, said=f"where {held_n:.3g} N are held at the tip"))
        elif claim.fit == "turning":
            forces += _levers(claim, every)
        add(claim.part, claim.bore.id, forces)
        line = [one.bore for one in claims if _on_one_pin(one, claim)]
        forces += [_force(case, line) for case in every]
        if claim.hardware.printed:
            add(claim.hardware.printed, PIN, forces)
        for one in forces:
            if not one.asks and one.force_n > passed.get(claim.hardware.name, ("", NOTHING))[1].force_n:
                passed[claim.hardware.name] = claim.part, one
    for claim in claims:
        source, most = passed.get(claim.hardware.name, (claim.part, NOTHING))
        if source != claim.part:
            add(claim.part, claim.bore.id, [replace(most, said=f"through {source} {most.said}")])
    for part, feature, pull in bore_pulls(cases, claims, out or {}, footing):
        add(part, feature, [pull])
    return found


def _force(case: LoadCase, bores: Sequence[Bore]) -> BoreForce:
    """Return the force of a load case on bores in one line."""
    return BoreForce(force_n=_across_n(case, bores), said=f"under {case.said}", asks=case.asks)


def _levers(claim: Claim, cases: Sequence[LoadCase]) -> list[BoreForce]:
    """Return what a lever might put on a bore about which cases leave a moment, unless a known one leaves none."""
    if any(not case.asks and not _left_over(case, claim.bore) for case in cases):
        return []
    where = f"{claim.hardware.name} in {claim.bore.id}"
    return [
        BoreForce(
            force_n=LEVER_RATIO * float(np.linalg.norm(case.force_n)),
            said="if it is the pivot of a lever of two to one",
            asks=f"What holds {claim.part} against turning about {where}, and how far from it?",
            caution=f"nothing tells what holds {claim.part} against turning about {where}: a lever puts more on it "
            "than its load, the more the longer it is",
        )
        for case in cases
        if _left_over(case, claim.bore)
    ]


def _left_over(case: LoadCase, bore: Bore) -> bool:
    """Return whether a case's forces leave a moment about a bore's axis that something untold must take up."""
    axis, centre = np.array(bore.axis), np.array(bore.centre_mm)
    moments = [
        float(axis @ (np.cross(np.subtract(one.at_mm, centre), one.force_n) + one.couple_n_mm)) for one in case.every
    ]
    return abs(sum(moments)) > LEFT_RATIO * max(map(abs, moments)) > 0.0


def _across_n(case: LoadCase, bores: Sequence[Bore]) -> float:
    """Return the force of a case on bores in one line, across their axis."""
    axis, total = np.array(bores[0].axis), np.zeros(3)
    for load in case.every:
        if any(_is_on(load, bore) for bore in bores):
            total += load.force_n
    return float(np.linalg.norm(total - axis * (axis @ total)))


def _is_on(load: PartLoad, bore: Bore) -> bool:
    """Return whether a load presses a bore: by its name, or near its axis, as between two lugs."""
    if load.over:
        return load.over == bore.id
    return _off_mm(np.subtract(load.at_mm, bore.centre_mm), bore) <= ON_AXIS_MM


def _on_one_pin(a: Claim, b: Claim) -> bool:
    """Return whether two bores of one part lie in one line, with the same kind of hardware in them."""
    if (a.part, a.hardware.name) != (b.part, b.hardware.name):
        return False
    one, other = a.bore, b.bore
    parallel = abs(float(np.dot(one.axis, other.axis))) >= PARALLEL_COS
    return parallel and _off_mm(np.subtract(one.centre_mm, other.centre_mm), other) <= ON_AXIS_MM


def _off_mm(way: np.ndarray, bore: Bore) -> float:
    """Return the length of a vector across a bore's axis."""
    axis = np.array(bore.axis)
    return float(np.linalg.norm(way - axis * (axis @ way)))
