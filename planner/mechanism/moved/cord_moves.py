"""What a cord does at one size: travel, arm, pull, what opens again, and the forces on pins, guides and knots."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from planner.finding import Vec3
from planner.job import Cord, Job, part_of
from planner.mechanism.cord.cord_run import CordRun, run_of
from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.placed_stop import Ring, stand
from planner.mechanism.cord.taut import Contact, taut
from planner.mechanism.cord.vectors import cross, dot, less, plus, times
from planner.mechanism.force.body_drive import drive_of, has_mm
from planner.mechanism.force.driven_joint import DrivenJoint, Mass, Strung
from planner.mechanism.force.equaliser import hand_pull_n
from planner.mechanism.force.friction import levels
from planner.mechanism.force.point_load import cord_loads, tensions
from planner.mechanism.force.pull_range import Levels, PullRange, pull_over, return_over
from planner.mechanism.moved.driven_cords import DrivenCord
from planner.mechanism.moved.moved import NO_PULL_N, CordMove, PinForce
from planner.mechanism.places.frame import Frame
from planner.sourced import Sourced, stated

ARC_RAD = 0.3
"""Arcs are drawn in steps of at most this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pulled:
    """A cord at one size, and what its pull does to pins, guides and knots where it is greatest."""

    move: CordMove
    pins: tuple[PinForce, ...] = ()


def pulled(job: Job, driven: DrivenCord, factor: float) -> Pulled:
    """Return what a cord does at a scale."""
    cord = driven.cord
    blank = CordMove(name=cord.name, part=cord.part, joint=driven.joint.name if driven.joint else "")
    if driven.unknown or driven.joint is None:
        return Pulled(move=replace(blank, unknown=driven.unknown))
    run = run_of(driven.stops, driven.motions, factor, cord.diameter_mm)
    move = _geometry(job, driven, run, blank)
    if move.unknown:
        return Pulled(move=move)
    return _with_forces(job, driven, run, move, factor)


def _geometry(job: Job, driven: DrivenCord, run: CordRun, blank: CordMove) -> CordMove:
    """Return the move with length, travel and arm over the range."""
    closes_last = run.closes_deg == run.angles_deg[-1]
    open_mm, closed_mm = (run.length_mm[0], run.length_mm[-1]) if closes_last else (run.length_mm[-1], run.length_mm[0])
    rest = driven.joint.rest_deg if driven.joint and driven.joint.rest_deg is not None else 0.0
    nearest = min(range(len(run.angles_deg)), key=lambda k: abs(run.angles_deg[k] - rest))
    arms = [abs(arm) for arm in run.arm_mm]
    drive = drive_of(driven.cord, job.drive)
    unknown = ""
    if run.jumps_deg:
        unknown = f"its length jumps near {run.jumps_deg[0]:.1f}°: look at its path, a cord cannot take it"
    elif run.dead_deg:
        unknown = f"beyond {run.dead_deg[0]:.1f}° the same pull turns the joint back: hook it elsewhere, or need less"
    return replace(
        blank,
        travel_mm=run.travel_mm,
        has_mm=None if isinstance(drive, str) else has_mm(drive),
        length_mm=(open_mm, closed_mm),
        arm_mm=(min(arms), arms[nearest], max(arms)),
        bends_deg=max(one.bends_deg for one in run.cords),
        unknown=unknown,
    )


def friction_of(job: Job, cord: Cord) -> Levels:
    """Return friction at its least, as expected and at its most: that of the cord as stated, where it is."""
    on_guides: Sourced = job.limits.cord_friction if cord.friction is None else stated(cord.friction)
    return levels(on_guides, job.limits.pin_friction)


def _with_forces(job: Job, driven: DrivenCord, run: CordRun, move: CordMove, factor: float) -> Pulled:
    """Return the move with pull, what opens again and the forces, as far as they are known."""
    cord, rubs = driven.cord, friction_of(job, driven.cord)
    least, usual, most = rubs
    move = replace(move, friction=(least.cord_ratio, usual.cord_ratio, most.cord_ratio))
    unknown = next((one.unknown for one in driven.elastics if one.unknown), "")
    known = [one for one in driven.elastics if not one.unknown and one.elastic is not None]
    joint = DrivenJoint(
        motions=driven.motions,
        factor=factor,
        moving=driven.moving,
        axis=driven.joint.axis if driven.joint else (0.0, 0.0, 1.0),
        pin_mm=driven.pin_mm,
        pull=Strung(stops=driven.stops, run=run),
        elastics=tuple(
            Strung(
                stops=one.stops,
                run=run_of(one.stops, driven.motions, factor, one.cord.diameter_mm),
                elastic=one.elastic,
            )
            for one in known
        ),
        tip=driven.tip or ("", (0.0, 0.0, 0.0)),
        tip_way=driven.tip_way,
        masses=tuple(Mass(copy=m.copy, at_mm=m.at_mm, mass_g=m.mass_g * factor**3) for m in driven.masses),
    )
    if unknown:
        move = replace(move, elastic=driven.elastics[0].cord.name, return_unknown=unknown)
    if driven.tip is None:
        return Pulled(move=replace(move, pull_unknown=f"where {cord.name} grips is not stated: write grip_at_mm"))
    if known and not unknown:
        left = return_over(joint, rubs)
        move = replace(move, elastic=known[0].cord.name, back_n_mm=(min(left.low_n_mm), min(left.expected_n_mm)))
    grip_n = job.use.grip_n if job.use.grip_n is not None else job.use.load_n
    if grip_n is None:
        return Pulled(move=replace(move, pull_unknown="how hard it is to grip is not stated: write [use] grip_n"))
    if unknown:
        return Pulled(move=replace(move, grip_n=grip_n, pull_unknown=unknown))
    pulls = pull_over(joint, grip_n, rubs)
    worst = max(range(len(pulls.high_n)), key=lambda k: pulls.high_n[k])
    low, expected, high = (_at_hand(cord, pull) for pull in pulls.most_n)
    curve = tuple((angle, *at) for angle, at in zip(pulls.angles_deg, _all(cord, pulls), strict=True))
    move = replace(move, grip_n=grip_n, pull_n=(low, expected, high), curve_n=curve)
    return Pulled(move=move, pins=_pins(driven, joint, worst, min(pulls.expected_n[worst], NO_PULL_N), grip_n, rubs))


def _at_hand(cord: Cord, pull_n: float) -> float:
    """Return the pull of all cords of the kind together, at most what stands for no pull at all."""
    return min(hand_pull_n(cord.equaliser, [pull_n] * cord.count), NO_PULL_N)


def _all(cord: Cord, pulls: PullRange) -> list[tuple[float, float, float]]:
    """Return the pull at the hand at every angle."""
    rows = zip(pulls.low_n, pulls.expected_n, pulls.high_n, strict=True)
    return [(_at_hand(cord, low), _at_hand(cord, expected), _at_hand(cord, high)) for low, expected, high in rows]


def _pins(
    driven: DrivenCord, joint: DrivenJoint, k: int, pull_n: float, grip_n: float, rubs: Levels
) -> tuple[PinForce, ...]:
    """Return the force on the joint's pin, and on all that one cord touches, where the pull is greatest."""
    usual, run = rubs[1], joint.pull.run
    balance = joint.balance(k, usual)
    moved = driven.joint
    pin = PinForce(
        hardware=moved.pin or moved.name if moved else "",
        part=part_of(moved.parts[0]) if moved else "",
        force_n=balance.pin_force_n(pull_n, grip_n),
    )
    cord = run.cords[k]
    loads = cord_loads(driven.stops, cord, tuple(t * pull_n for t in tensions(cord, run.rubs[k], usual)))
    found: dict[str, Vec3] = {}
    copies: dict[str, str] = {}
    for load, contact in zip(loads, cord.contacts, strict=False):
        said = driven.stops[contact.number].said or load.copy
        found[said] = plus(found.get(said, (0.0, 0.0, 0.0)), load.force_n)
        copies[said] = load.copy
    return (pin, *(PinForce(hardware=said, part=part_of(copies[said]), force_n=force) for said, force in found.items()))


def line_of(
    stops: tuple[PathStop, ...], frames: Mapping[str, Frame], factor: float, cord_mm: float
) -> tuple[Vec3, ...]:
    """Return the points of a taut cord at size, arcs in small steps."""
    placed = stand(stops, frames, factor, cord_mm)
    points: list[Vec3] = []
    for contact in taut(placed).contacts:
        stop = placed[contact.number]
        points += _arc(stop, contact) if isinstance(stop, Ring) else [contact.comes_mm, contact.leaves_mm]
    return tuple(point for n, point in enumerate(points) if n == 0 or point != points[n - 1])


def _arc(ring: Ring, contact: Contact) -> list[Vec3]:
    """Return points on the arc that a cord lies on."""
    steps = max(1, math.ceil(contact.bend_rad / ARC_RAD))
    start = less(contact.comes_mm, ring.centre_mm)
    rise = dot(less(contact.leaves_mm, contact.comes_mm), ring.axis)
    found = []
    for n in range(steps + 1):
        turned = _turned(start, ring.axis, ring.sense * contact.bend_rad * n / steps)
        found.append(plus(plus(ring.centre_mm, turned), ring.axis, rise * n / steps))
    return [contact.comes_mm, *found[1:-1], contact.leaves_mm]


def _turned(way: Vec3, axis: Vec3, by_rad: float) -> Vec3:
    """Return a direction turned about an axis (Rodrigues 1840)."""
    along = times(axis, dot(way, axis))
    aside = less(way, along)
    return plus(plus(along, aside, math.cos(by_rad)), cross(axis, aside), math.sin(by_rad))
