"""What every cord of a device does at one size: travel, pull, what opens again, and the forces on pins and guides."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from planner.finding import Vec3
from planner.job import Cord, Job, part_of
from planner.mechanism.cord.cord_run import CordRun, jumps_of, run_of
from planner.mechanism.cord_effects.copy_masses import masses_of
from planner.mechanism.cord_effects.cord_crosses import crosses
from planner.mechanism.cord_effects.cord_on_joint import Leg, StrungCord, friction_of, ways_of
from planner.mechanism.cord_effects.elastic_side import shuts_words
from planner.mechanism.cord_effects.elastics.bands import Band, bands_at, bands_on, of_leg
from planner.mechanism.cord_effects.elastics.other_places import other_places, whole_ways_mm
from planner.mechanism.cord_effects.loop_bearings import in_loop, loop_bearings, moving_bodies, pin_mm
from planner.mechanism.cord_effects.pin_forces import pin_forces
from planner.mechanism.cord_effects.pull_of_one_table import (
    Pulled,
    alone_asks,
    each_curve,
    fingers_of,
    hand_curve,
    hold_n,
    kept_grip,
    locks_words,
    shared_words,
    tips_of,
    turned_by,
)
from planner.mechanism.cord_effects.pull_of_several_tables import Drawn, at_one_hand, laden_by_others, senses_of
from planner.mechanism.force.body_drive import drive_of, has_mm, usual_mm
from planner.mechanism.force.driven_joint import DrivenJoint, Strung
from planner.mechanism.force.friction import levels
from planner.mechanism.force.pull_range import ReturnRange, pull_over, return_over
from planner.mechanism.movement.move_records import NO_PULL_N, CordMove, PinForce
from planner.mesh import Solid

PINS = "what its pins take while its joints also hold what other cords grip is not worked out"


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
    """
    loose = [why for cord in job.cords if cord.kind == "elastic" if (why := _loose(cord, strung))]
    found, pins = list[Drawn](), dict[str, list[PinForce]]()
    for cord in job.cords:
        ways = ways_of(cord, strung)
        lost = [one for one in ways if isinstance(one, str)]
        known = [one for one in ways if isinstance(one, StrungCord)]
        if lost and (cord.kind == "elastic" or not known):
            unknown = CordMove(name=cord.name, part=cord.part, joint="", unknown=lost[0])
            found.append(Drawn(cord=cord, move=unknown, senses={}))
        if cord.kind == "elastic" or not known:
            continue
        bands = bands_on(known, strung)
        one, forces = _one(job, solids, known, bands, factor)
        drawn, away = (*known, *(band for band, _ in bands)), lost[0] if lost else ""
        if drawn not in known[0].through:
            known[0].through[drawn] = crosses(known, drawn[len(known) :], solids)
        move = replace(one.move, ways_unknown=away, crosses=known[0].through[drawn])
        if loose and not move.unknown:
            move = replace(move, pull_n=None, curve_n=(), each_n=(), grip_for_n=None, shared="", pull_unknown=loose[0])
            move, forces = replace(move, return_unknown=loose[0]), []
        found.append(replace(one, move=move, beside=next(filter(None, (way.beside for way in known)), "")))
        pins[cord.name] = forces
    return _at_hand(job, found, pins)


def _at_hand(job: Job, found: Sequence[Drawn], pins: Mapping[str, Sequence[PinForce]]) -> CordMoves:
    """Return all cords as the body draws them, with the forces on pins by the cord where they are known."""
    laden = laden_by_others(found)
    held = {one.move.name: one.beside or (PINS if one.move.name in laden else "") for one in found}
    return CordMoves(
        cords=tuple(
            replace(one, pull_unknown=one.pull_unknown or held[one.name]) for one in at_one_hand(job.drive, found)
        ),
        pins=tuple(pin for name, each in pins.items() if name not in laden for pin in each),
    )


def _loose(cord: Cord, strung: Mapping[str, StrungCord | str]) -> str:
    """Return why it is not known how an elastic pulls against a cord; empty where it is."""
    ways = ways_of(cord, strung)
    if not ways:
        return f"how {cord.name} pulls against it is not known: write the path of {cord.name}"
    lost = [one for one in ways if isinstance(one, str)]
    return f"how {cord.name} pulls against it is not known: {lost[0]}" if lost else ""


def _one(
    job: Job, solids: Mapping[str, Solid], ways: Sequence[StrungCord], elastics: Sequence[Band], factor: float
) -> tuple[Drawn, list[PinForce]]:
    """Return the pulling cords of one table, told by the first of them, and the forces of their greatest pull."""
    one = ways[0]
    cord, limits = one.cord, job.limits
    every = [[way.run(factor, leg) for leg in way.legs] for way in ways]
    friction, grip = friction_of(job, cord), job.use.wanted_grip_n
    move = replace(
        _run(job, one, [runs[0] for runs in every]),
        grip_n=grip,
        friction=(friction.low, friction.value, friction.high),
        elastic=", ".join(dict.fromkeys(part_of(band.cord.name) for band, _ in elastics)),
        unknown=next(filter(None, (_not_possible(way, runs) for way, runs in zip(ways, every, strict=True))), ""),
    )
    drawn = Drawn(cord=cord, move=move, senses=senses_of(list(zip(ways, every, strict=True))))
    tip = cord.grip_at_mm or job.part(part_of(one.driven)).load_at_mm
    if move.unknown:
        return drawn, []
    if off := next(filter(None, (way.tip_off for way in ways)), ""):
        return replace(drawn, move=replace(move, pull_unknown=off)), []
    if tip is None:
        asked = f"where {one.driven} grips is not stated: write grip_at_mm of {cord.name}"
        return replace(drawn, move=replace(move, pull_unknown=asked)), []
    at = levels(friction, limits.pin_friction)
    pulled = _pulled(job, solids, list(zip(ways, every, strict=True)), elastics, tip, factor)
    if isinstance(pulled, str):
        return replace(drawn, move=replace(move, pull_unknown=pulled)), []
    joints, fingers, tips = [each.joint for each in pulled], fingers_of(job, one), tips_of(pulled)
    move = _opened(move, [return_over(joint, at) for joint in joints if joint.elastics])
    move = replace(move, shuts=shuts_words(pulled), grip_for_n=kept_grip(job, cord, fingers, joints, at))
    move = replace(move, locks=locks_words(joints, at))
    drawn = replace(
        drawn,
        grip_for=partial(kept_grip, job, cord, fingers, joints, at),
        hold_n=partial(hold_n, joints, at),
        holds=tuple((tips[each.way.driven], each.joint.moving) for each in pulled),
        fingers=fingers,
        asks=partial(alone_asks, turned_by(pulled), tips, at),
    )
    if grip is None:
        move = replace(move, pull_unknown="how hard it is to grip is not stated: write [use] grip_n")
        return replace(drawn, move=move), []
    pulls = [pull_over(joint, grip, at) for joint in joints]
    curve = hand_curve(cord, fingers, pulled, pulls)
    low, expected, high = (max(point[k] for point in curve) for k in (1, 2, 3))
    move = replace(move, pull_n=(low, expected, high), curve_n=curve, each_n=each_curve(pulled, pulls))
    told = shared_words(cord, fingers, joints, expected, at), move.locks
    move = replace(move, shared="; ".join(filter(None, told)))
    forces = pin_forces(pulled, pulls, grip, at[2]) if high < NO_PULL_N else []
    return replace(drawn, move=move), forces


def _run(job: Job, one: StrungCord, runs: Sequence[CordRun]) -> CordMove:
    """Return how the cords of a table run, told by the first, and what the body gives: the travel is the longest."""
    drive, run = drive_of(one.cord, job.drive), runs[0]
    given = None if isinstance(drive, str) else has_mm(drive)
    return CordMove(
        name=one.cord.name,
        part=one.cord.part,
        joint=one.joint.name,
        begins=one.stops[0].said,
        travel_mm=max(each.travel_mm for each in runs),
        has_mm=given,
        usual_mm=None if isinstance(drive, str) or given is not None else usual_mm(drive),
        length_mm=(max(run.length_mm), min(run.length_mm)),
        arm_mm=_arms(run, one.joint.rest_deg or 0.0),
        bends_deg=max(taut.bends_deg for each in runs for taut in each.cords),
        tied_mm=one.cord.slack_mm,
    )


def _pulled(
    job: Job,
    solids: Mapping[str, Solid],
    ways: Sequence[tuple[StrungCord, Sequence[CordRun]]],
    elastics: Sequence[Band],
    tip_mm: Vec3,
    factor: float,
) -> list[Pulled] | str:
    """Return every joint that a table's cords pull, way by way, or what is not known about an elastic.

    A joint comes more than once where an elastic crosses others that these cords do not move: with those at each end.
    """
    found: list[Pulled] = []
    for way, runs in ways:
        for leg, mine in zip(way.legs, runs, strict=True):
            crossing = of_leg(elastics, leg)
            others = other_places(way, leg, crossing)
            if isinstance(others, str):
                return others
            whole = whole_ways_mm(crossing, [leg, *others], factor) if others else {}
            for at in others or [leg]:
                bands = bands_at(crossing, at, factor, whole)
                if isinstance(bands, str):
                    return bands
                run = run_of(way.stops, at.motions, factor, way.cord.diameter_mm) if others else mine
                found.append(Pulled(way=way, leg=at, joint=_driven(job, solids, way, at, run, bands, tip_mm, factor)))
    return found


def driven_joints(
    job: Job,
    solids: Mapping[str, Solid],
    one: StrungCord,
    elastics: Sequence[Band],
    runs: Sequence[CordRun],
    tip_mm: Vec3,
    factor: float,
) -> list[DrivenJoint] | str:
    """Return the joints that a cord crosses with all that acts on them, or what is not known about an elastic."""
    joints = []
    for leg, mine in zip(one.legs, runs, strict=True):
        bands = bands_at(of_leg(elastics, leg), leg, factor)
        if isinstance(bands, str):
            return bands
        joints.append(_driven(job, solids, one, leg, mine, bands, tip_mm, factor))
    return joints


def _opened(move: CordMove, left: Sequence[ReturnRange]) -> CordMove:
    """Return a cord with what its elastics have left to open again, the least of all joints, or why it is not known."""
    if not left:
        return move
    if not all(each.known for each in left):
        why = f"how the force of {move.elastic} falls as it shortens is not known: state rate_n_per_mm"
        return replace(move, return_unknown=why)
    low, expected = (min(each.least_n_mm[k] for each in left) for k in (0, 1))
    return replace(move, back_n_mm=(low, expected))


def _arms(run: CordRun, rest_deg: float) -> tuple[float, float, float]:
    """Return the arm at its least over the range, at rest, and at its most, as lengths."""
    arms = [abs(arm) for arm in run.arm_mm]
    rest = min(range(len(arms)), key=lambda k: abs(run.angles_deg[k] - rest_deg))
    return min(arms), arms[rest], max(arms)


def _not_possible(one: StrungCord, runs: Sequence[CordRun]) -> str:
    """Return why a cord cannot do its work, in one sentence; empty where it can."""
    for place in jumps_of(runs):
        at = f"{runs[0].angles_deg[place]:.0f}{' mm' if runs[0].slides else '°'} of {one.joint.name}"
        return f"{one.cord.name} jumps at {at}: its path is not one that a taut cord can take"
    for leg, run in zip(one.legs, runs, strict=True):
        for angle in run.dead_deg:
            at = f"{angle:.0f}{' mm' if run.slides else '°'}"
            return f"at {at} {one.cord.name} passes the axis of {leg.joint.name}: beyond, its pull turns it back"
    return ""


def _driven(
    job: Job,
    solids: Mapping[str, Solid],
    one: StrungCord,
    leg: Leg,
    run: CordRun,
    bands: tuple[Strung, ...],
    tip_mm: Vec3,
    factor: float,
) -> DrivenJoint:
    """Return a joint with all that acts on it."""
    bodies = moving_bodies(one.mechanism, leg.motions[0]) if in_loop(one.mechanism, leg.joint) else {}
    return DrivenJoint(
        motions=leg.motions,
        factor=factor,
        moving=leg.moving,
        axis=leg.joint.axis,
        pin_mm=pin_mm(job, leg.joint),
        pull=Strung(stops=one.stops, run=run),
        elastics=bands,
        tip=(one.driven, tip_mm),
        tip_way=job.part(part_of(one.driven)).load_dir,
        masses=masses_of(job, solids, leg.moving, factor),
        loops=tuple(loop_bearings(job, one.mechanism, motion, bodies, factor) for motion in leg.motions if bodies),
        bodies=bodies,
        on_stop=leg.on_stop,
    )
