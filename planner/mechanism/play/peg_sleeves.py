"""What a printed peg has for a sleeve: the bore of another part as printed, or the ring of a bearing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from planner.assembly import Claim, PegInBore, lies_in
from planner.finding import Vec3
from planner.job import Job, part_of
from planner.mechanism.cord.vectors import times
from planner.mechanism.joints.bare_axes import fills_ring
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.places.axis_fits import moved
from planner.mechanism.places.frame import Frame
from planner.mechanism.play.sleeve import Sleeve, middle_mm
from planner.rules import own_factor, peg_rule
from planner.survey import Bore, Peg, Survey

Plays = tuple[float, float, float]
Each = tuple[str, Bore, Peg, Plays, float | None]
"""The copy with a bore or a seat, that bore, the peg in it, its play, and how wide the ring is; None without one."""


def pegs_of_joint(joint: MovingJoint, surveys: Mapping[str, Survey]) -> tuple[PegInBore, ...]:
    """Return the peg that a joint turns about in each bore that it lies in, the tightest first; empty without one."""
    return tuple(found for _, found in _pegs(joint, surveys))


def _pegs(joint: MovingJoint, surveys: Mapping[str, Survey]) -> Iterator[tuple[str, PegInBore]]:
    """Yield each of them with the copy that has the bore."""
    for copy, name in joint.bores if joint.peg_mm > 0.0 else ():
        part, peg_part = part_of(copy), part_of(_other(joint, copy))
        yield (
            copy,
            PegInBore(
                part=part,
                bore=next(bore for bore in surveys[part].bores if bore.id == name),
                peg_part=peg_part,
                peg=next(peg for peg in surveys[peg_part].pegs if peg.diameter_mm == joint.peg_mm),
                in_place=True,
                how="turns",
            ),
        )


def peg_sleeves(
    job: Job,
    joint: MovingJoint,
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
    claims: Sequence[Claim],
    downs: Mapping[str, Vec3],
    factor: float,
) -> tuple[Sleeve, ...]:
    """Return what guides the printed peg of a joint, in the device's frame at size: one sleeve; empty without a peg.

    Of several bores, or rings, on one axis the widest play counts, over all that they guide.
    """
    found: list[Each] = [
        (copy, peg.bore, peg.peg, _play_mm(job, peg, downs.get(peg.part), factor), None)
        for copy, peg in _pegs(joint, surveys)
    ]
    found += _in_rings(job, joint, surveys, frames, claims, factor)
    if not found:
        return ()
    copy, first, *_ = found[0]
    stands = moved(first, frames[copy])
    ends = [end for each in found for end in _guided_mm(np.array(stands.axis), frames, joint, each, factor)]
    return (
        Sleeve(
            axis=stands.axis,
            at_mm=middle_mm(stands.axis, times(stands.centre_mm, factor), ends),
            long_mm=max(ends) - min(ends),
            play_mm=max((plays for *_, plays, _ in found), key=lambda play: play[1]),
            name=f"{joint.ring or first.id} in {copy}",
        ),
    )


def _play_mm(job: Job, found: PegInBore, down: Vec3 | None, factor: float) -> Plays:
    """Return bore less peg, as it prints and is worked: with the most that a printer takes off, as expected, the least.

    What prints too tight to turn is reamed, or sanded, to what ``peg.tight`` asks for.
    """
    rule = peg_rule(job, found, down)
    off_mm, need_mm = rule.play.undersize_mm, rule.need_mm.value
    least, usual, most = (max(rule.play.at(factor, off), need_mm) for off in (off_mm.high, off_mm.value, off_mm.low))
    return least, usual, most


def _in_rings(
    job: Job,
    joint: MovingJoint,
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
    claims: Sequence[Claim],
    factor: float,
) -> Iterator[Each]:
    """Yield the seats of the bearings that carry a joint, with the peg in each, its play, and how wide the ring is.

    The ring keeps its size and the peg grows. A peg that is too thick is sanded until it goes in.
    """
    spread_mm = job.limits.of("bearing.peg", "spread_mm").value
    for claim in claims if joint.ring else ():
        if claim.hardware.name != joint.ring:
            continue
        for copy in (copy for copy in joint.parts if part_of(copy) == claim.part):
            other = _other(joint, copy)
            hole_mm, seat = claim.hardware.diameter_mm, moved(claim.bore, frames[copy])
            pegs = [peg for peg in surveys[part_of(other)].pegs if _lies_in(moved(peg, frames[other]), seat, hole_mm)]
            if not pegs:
                continue
            peg = min(pegs, key=lambda peg: abs(peg.diameter_mm - hole_mm))
            own = own_factor(job.part(part_of(other)), peg.axis, widest=True)
            thick_mm = peg.diameter_mm * (factor if own is None else own)
            plays = (hole_mm - thick_mm - spread_mm, hole_mm - thick_mm, hole_mm - thick_mm + spread_mm)
            least, usual, most = (max(play, 0.0) for play in plays)
            yield copy, claim.bore, peg, (least, usual, most), _width_mm(job, claim)


def _width_mm(job: Job, claim: Claim) -> float | None:
    """Return how wide a bearing is; None where it is in no table."""
    ring = claim.hardware
    return next(
        (
            stock.width_mm.value
            for stock in job.tables.bearings
            if stock.width_mm
            and stock.outside_mm
            and (stock.diameter_mm.value, stock.outside_mm.value) == (ring.diameter_mm, ring.size_mm)
        ),
        None,
    )


def _other(joint: MovingJoint, copy: str) -> str:
    """Return the other copy of a joint."""
    return next(one for one in joint.parts if one != copy)


def _lies_in(peg: Peg, seat: Bore, hole_mm: float) -> bool:
    """Return whether a peg, where it stands, is one for a ring in a seat."""
    return fills_ring(peg, hole_mm) and lies_in(peg, seat)


def _guided_mm(
    axis: NDArray[np.float64],
    frames: Mapping[str, Frame],
    joint: MovingJoint,
    each: Each,
    factor: float,
) -> tuple[float, float]:
    """Return from where to where, along an axis at size, a bore or a ring guides its peg: as far as both reach."""
    copy, bore, peg, _, wide_mm = each
    bore, peg = moved(bore, frames[copy]), moved(peg, frames[_other(joint, copy)])
    half_mm = (bore.depth_mm * factor if wide_mm is None else wide_mm) / 2
    at_mm, peg_at_mm = (factor * float(np.array(one.centre_mm) @ axis) for one in (bore, peg))
    peg_half_mm = peg.length_mm * factor / 2
    low, high = max(at_mm - half_mm, peg_at_mm - peg_half_mm), min(at_mm + half_mm, peg_at_mm + peg_half_mm)
    return (low, high) if low < high else (at_mm - half_mm, at_mm + half_mm)
