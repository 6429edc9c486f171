"""A joint as it will be: its bores as printed, drilled where they are tight, and the gaps between its faces."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from planner.assembly import Claim, drill_of, ends_of, grown
from planner.finding import Vec3
from planner.job import Job, part_of
from planner.mechanism.cord.vectors import times, unit
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.places.frame import Frame
from planner.mechanism.play.face_room import FaceRoom
from planner.mechanism.play.peg_sleeves import peg_sleeves
from planner.mechanism.play.sleeve import Sleeve, middle_mm
from planner.mechanism.play.wobble import PinPlay
from planner.rules import undersize_of, work_on
from planner.survey import Survey


def pin_play(
    job: Job,
    joint: MovingJoint,
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
    claims: Sequence[Claim],
    downs: Mapping[str, Vec3],
    factor: float,
    room: FaceRoom,
) -> PinPlay:
    """Return a joint's play: what guides its pin or peg, and the room between its faces, with the printer's spread."""
    part = part_of(joint.parts[1])
    mine = {bore for copy, bore in joint.bores if copy == joint.parts[1]}
    axis = next((claim.bore.axis for claim in claims if claim.part == part and claim.bore.id in mine), None)
    return PinPlay(
        sleeves=sleeves_of(job, joint, frames, claims, downs, factor)
        or peg_sleeves(job, joint, surveys, frames, claims, downs, factor),
        float_mm=gaps_mm(job, axis, downs.get(part), room.float_mm * factor),
        tilt_rad=room.tilt_rad,
    )


def gaps_mm(job: Job, axis: Vec3 | None, down: Vec3 | None, drawn_mm: float) -> tuple[float, float, float]:
    """Return the gap between two printed faces across an axis: least, as drawn, and most.

    Two faces make a gap as two walls make a bore's width, so it varies as much as printed bores do about what is
    expected of them (an assumption; both come from how far a bead spreads).
    """
    off, _ = undersize_of(job, axis if down is not None else None, down or (0.0, 0.0, -1.0))
    return max(drawn_mm - (off.high - off.value), 0.0), drawn_mm, drawn_mm + (off.value - off.low)


def sleeves_of(
    job: Job,
    joint: MovingJoint,
    frames: Mapping[str, Frame],
    claims: Sequence[Claim],
    downs: Mapping[str, Vec3],
    factor: float,
) -> tuple[Sleeve, ...]:
    """Return what guides a joint's pin, one sleeve for each copy on it; a pin that is held tight adds no play.

    ``downs`` says how parts stand on the bed, which decides how much smaller their bores print; a part that it does not
    name counts as lying.
    """
    found = []
    for copy in dict.fromkeys(copy for copy, _ in joint.bores):
        mine = {bore for one, bore in joint.bores if one == copy}
        part = part_of(copy)
        on_pin = [claim for claim in claims if claim.part == part and claim.bore.id in mine]
        if on_pin and copy in frames:
            found.append(_sleeve(job, copy, on_pin, frames[copy], downs, factor))
    return tuple(found)


def _sleeve(
    job: Job, copy: str, claims: Sequence[Claim], frame: Frame, downs: Mapping[str, Vec3], factor: float
) -> Sleeve:
    """Return one copy's bores on a pin; of several the widest counts."""
    axis = unit(frame.direction(claims[0].bore.axis))
    ends: list[float] = []
    for claim in claims:
        middle = float(np.dot(frame.point(claim.bore.centre_mm), axis))
        ends += [middle - claim.bore.depth_mm / 2, middle + claim.bore.depth_mm / 2]
    plays = [play_mm(job, claim, downs.get(part_of(copy)), factor) for claim in claims]
    return Sleeve(
        axis=axis,
        at_mm=times(middle_mm(axis, frame.point(claims[0].bore.centre_mm), ends), factor),
        long_mm=(max(ends) - min(ends)) * factor,
        play_mm=max(plays, key=lambda play: play[1]),
        name=f"{claims[0].hardware.name} in {copy}",
    )


def play_mm(job: Job, claim: Claim, down: Vec3 | None, factor: float) -> tuple[float, float, float]:
    """Return bore less pin, on the diameter: with the most that a printer takes off, as expected, and the least.

    A pin that is printed grows with the device. A bore that prints tighter than its fit allows is drilled to it, as
    ``bore.tight`` says; work that the job states is done first.
    """
    known = down is not None
    undersize, _ = undersize_of(job, claim.bore.axis if known else None, down or (0.0, 0.0, -1.0))
    work = work_on(job, job.part(claim.part), claim.bore)
    own = {part.name: factor for part in job.parts if part.scale_percent is None}
    pin = grown(claim.hardware, own)
    ends = ends_of(pin, claim.fit, job.limits, job.tables)
    drill = drill_of(pin, claim.fit, job.limits, job.tables)
    found = []
    for off in (undersize.high, undersize.value, undersize.low):
        bore = work.finished_mm(claim.bore.diameter_mm * factor - off)
        if ends is not None and drill is not None and bore < ends[0]:
            bore = max(bore, drill)
        found.append(max(bore - pin.seated_mm, 0.0))
    return found[0], found[1], found[2]
