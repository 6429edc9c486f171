"""What every cord of a device does at one size: travel, pull, what opens again, and the forces on pins and guides."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from planner.job import Cord, Job, part_of
from planner.mechanism.cord.cord_run import CordRun
from planner.mechanism.cord.vectors import times
from planner.mechanism.force.body_drive import drive_of, has_mm
from planner.mechanism.force.driven_joint import DrivenJoint, Strung
from planner.mechanism.force.elastic import elastic_of
from planner.mechanism.force.equaliser import hand_pull_n
from planner.mechanism.force.friction import Friction, levels
from planner.mechanism.force.point_load import resultant_n
from planner.mechanism.force.pull_range import PullRange, pull_over, return_over
from planner.mechanism.moved.moved import NO_PULL_N, CordMove, PinForce
from planner.mechanism.strung.copy_masses import masses_of
from planner.mechanism.strung.strung_cord import StrungCord
from planner.mesh import Solid
from planner.sourced import stated


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CordMoves:
    """All cords of a device at one size, and the forces where a pull is at its most."""

    cords: tuple[CordMove, ...]
    pins: tuple[PinForce, ...]


def cord_moves(
    job: Job, solids: Mapping[str, Solid], strung: Mapping[str, StrungCord | str], factor: float
) -> CordMoves:
    """Return what the cords do at a scale.

    Parameters
    ----------
    strung
        Every cord with a path, by its name: strung, or the sentence why it is not.
    factor
        The scale.
    """
    elastics = [one for one in strung.values() if isinstance(one, StrungCord) and one.cord.kind == "elastic"]
    cords: list[CordMove] = []
    pins: list[PinForce] = []
    for cord in job.cords:
        one = strung.get(cord.name)
        if one is None or (cord.kind == "elastic" and not isinstance(one, str)):
            continue
        if isinstance(one, str):
            cords.append(CordMove(name=cord.name, part=cord.part, joint="", unknown=one))
            continue
        mine = [band for band in elastics if band.joint.name == one.joint.name]
        move, forces = _one(job, solids, one, mine, factor)
        cords.append(move)
        pins += forces
    return CordMoves(cords=_summed(job, cords), pins=tuple(pins))


def _one(
    job: Job, solids: Mapping[str, Solid], one: StrungCord, elastics: Sequence[StrungCord], factor: float
) -> tuple[CordMove, list[PinForce]]:
    """Return one pulling cord, and the forces of its greatest pull."""
    cord, run = one.cord, one.run(factor)
    drive = drive_of(cord, job.drive)
    limits = job.limits
    friction = limits.cord_friction if cord.friction is None else stated(cord.friction)
    move = CordMove(
        name=cord.name,
        part=cord.part,
        joint=one.joint.name,
        travel_mm=run.travel_mm,
        has_mm=None if isinstance(drive, str) else has_mm(drive),
        length_mm=(max(run.length_mm), min(run.length_mm)),
        arm_mm=_arms(run, one.joint.rest_deg or 0.0),
        bends_deg=max(taut.bends_deg for taut in run.cords),
        grip_n=job.use.grip_n if job.use.grip_n is not None else job.use.load_n,
        friction=(friction.low, friction.value, friction.high),
        elastic=", ".join(band.cord.name for band in elastics),
        unknown=_not_possible(cord, run),
    )
    if move.unknown:
        return move, []
    levels_ = levels(friction, limits.pin_friction)
    joint = _driven(job, solids, one, run, elastics, factor)
    if isinstance(joint, str):
        return replace(move, pull_unknown=joint), []
    left = return_over(joint, levels_) if joint.elastics else None
    if left is not None and not left.known:
        why = f"how the force of {move.elastic} falls as it shortens is not known: state rate_n_per_mm"
        move = replace(move, return_unknown=why)
    elif left is not None:
        move = replace(move, back_n_mm=left.least_n_mm[:2])
    grip = move.grip_n
    if grip is None:
        return replace(move, pull_unknown="how hard it is to grip is not stated: write [use] grip_n"), []
    pulls = pull_over(joint, grip, levels_)
    curve = tuple(
        (angle, _at_hand(cord, low), _at_hand(cord, expected), _at_hand(cord, high))
        for angle, low, expected, high in zip(
            pulls.angles_deg, pulls.low_n, pulls.expected_n, pulls.high_n, strict=True
        )
    )
    low, expected, high = (_at_hand(cord, most) for most in pulls.most_n)
    move = replace(move, pull_n=(low, expected, high), curve_n=curve)
    return move, [] if high >= NO_PULL_N else _forces(one, joint, pulls, grip, levels_[2])


def _at_hand(cord: Cord, pull_n: float) -> float:
    """Return the pull of all cords of the kind together; at most what stands for no pull at all."""
    return min(hand_pull_n(cord.equaliser, [pull_n] * cord.count), NO_PULL_N)


def _arms(run: CordRun, rest_deg: float) -> tuple[float, float, float]:
    """Return the arm at its least over the range, at rest, and at its most, as lengths."""
    arms = [abs(arm) for arm in run.arm_mm]
    rest = min(range(len(arms)), key=lambda k: abs(run.angles_deg[k] - rest_deg))
    return min(arms), arms[rest], max(arms)


def _not_possible(cord: Cord, run: CordRun) -> str:
    """Return why a cord cannot do its work, in one sentence; empty where it can."""
    unit = " mm" if run.slides else "°"
    if run.jumps_deg:
        return f"{cord.name} jumps at {run.jumps_deg[0]:.0f}{unit}: its path is not one that a taut cord can take"
    if run.dead_deg:
        return f"at {run.dead_deg[0]:.0f}{unit} {cord.name} passes the joint's axis: beyond, its pull turns it back"
    return ""


def _driven(
    job: Job,
    solids: Mapping[str, Solid],
    one: StrungCord,
    run: CordRun,
    elastics: Sequence[StrungCord],
    factor: float,
) -> DrivenJoint | str:
    """Return the joint with all that acts on it, or what is not known about that."""
    part = job.part(part_of(one.driven))
    tip = one.cord.grip_at_mm or part.load_at_mm
    if tip is None:
        return f"where {one.driven} grips is not stated: write grip_at_mm of {one.cord.name}"
    bands = []
    for band in elastics:
        force = elastic_of(band.cord)
        if isinstance(force, str):
            return force
        bands.append(Strung(stops=band.stops, run=band.run(factor), elastic=force))
    return DrivenJoint(
        motions=one.motions,
        factor=factor,
        moving=one.moving,
        axis=one.joint.axis,
        pin_mm=_pin_mm(job, one),
        pull=Strung(stops=one.stops, run=run),
        elastics=tuple(bands),
        tip=(one.driven, tip),
        tip_way=part.load_dir,
        masses=masses_of(job, solids, one.moving, factor),
    )


def _pin_mm(job: Job, one: StrungCord) -> float:
    """Return the radius at which a joint's friction acts: that of its pin; 1 where it slides."""
    if one.joint.kind == "slides":
        return 1.0
    pins = [hardware.seated_mm / 2 for hardware in job.hardware if hardware.name == one.joint.pin]
    return max(pins, default=0.0)


def _forces(one: StrungCord, joint: DrivenJoint, pulls: PullRange, grip_n: float, friction: Friction) -> list[PinForce]:
    """Return the forces on the joint's pin and on every stop of the cord, where the pull is at its most."""
    worst = pulls.high_n.index(max(pulls.high_n))
    pull = pulls.high_n[worst]
    balance = joint.balance(worst, friction, weighs=True)
    found: list[PinForce] = []
    if one.joint.pin:
        force = balance.pin_force_n(pull, grip_n)
        found.append(PinForce(hardware=one.joint.pin, part=part_of(one.driven), force_n=force))
    contacts = joint.pull.run.cords[worst].contacts
    ends = [contact.number for contact in contacts for way in (contact.back, contact.ahead) if way is not None]
    loads = list(zip(ends, joint.pull_loads(worst, friction), strict=True))
    for number, stop in enumerate(one.stops):
        force = resultant_n([load for end, load in loads if end == number], {stop.copy})
        if any(force):
            told = f"{one.cord.name} at {stop.said}"
            found.append(PinForce(hardware=told, part=part_of(stop.copy), force_n=times(force, pull)))
    return found


def _summed(job: Job, cords: Sequence[CordMove]) -> tuple[CordMove, ...]:
    """Return cords whose pull counts all cords that the same joint of the body draws: one hand pulls them together."""
    drawn = {cord.name: cord.drawn_from for cord in job.cords}
    found = []
    for cord in cords:
        together = [one for one in cords if one.pull_n is not None and drawn[one.name] == drawn[cord.name]]
        if cord.pull_n is None or len(together) < 2 or not drawn[cord.name]:
            found.append(cord)
            continue
        low, expected, high = (sum(one.pull_n[k] for one in together if one.pull_n) for k in range(3))
        found.append(replace(cord, pull_n=(low, expected, high)))
    return tuple(found)
