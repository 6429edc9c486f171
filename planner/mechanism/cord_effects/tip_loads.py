"""What a load at the tip does to the copies of a device: cords, elastics and pins push on each, as drawn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from math import inf

from planner.job import Job, part_of
from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.small_moves import Motion
from planner.mechanism.cord.vectors import cross, dot, less, size, times, unit
from planner.mechanism.cord_effects.chain import beyond_each
from planner.mechanism.cord_effects.cord_moves import driven_joints
from planner.mechanism.cord_effects.cord_on_joint import StrungCord, friction_of
from planner.mechanism.cord_effects.elastics.bands import bands_on
from planner.mechanism.cord_effects.loop_bearings import in_loop
from planner.mechanism.cord_effects.loops.loop_loads import loop_states, untold_links
from planner.mechanism.cord_effects.pull_of_one_table import fingers_of
from planner.mechanism.force.chain_pull import Ends, chain_pulls, under_one_load
from planner.mechanism.force.driven_joint import DrivenJoint
from planner.mechanism.force.equaliser import hand_pull_n
from planner.mechanism.force.friction import Friction, levels
from planner.mechanism.force.point_load import PointLoad, moment_n_mm, resultant_n, scaled
from planner.mechanism.force.pull_range import Levels, pull_over
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.movement.move_records import NO_PULL_N
from planner.mechanism.places.frame import Frame
from planner.mesh import Solid

CopyLoads = dict[str, tuple[PointLoad, ...]]
Holding = tuple[StrungCord, list[DrivenJoint], Levels]
"""A cord that holds a load at its tip, the joints that it crosses, and levels of friction."""
UNHELD = "what {0} holds at its tip is not known"
SHARED = "several cords of one finger share its load"
SAME_SHARE = 0.99
"""Two pulls that differ by less are one; no source."""


def tip_loads(
    job: Job,
    solids: Mapping[str, Solid],
    frames: Mapping[str, Frame],
    strung: Mapping[str, StrungCord | str],
    load_n: float,
) -> tuple[CopyLoads, ...]:
    """Return the forces on every copy that a cord under a load at its tip reaches, each in the copy's mesh, as drawn.

    The cord pulls as hard as the hardest joint that it crosses needs: the easier ones close until what is gripped holds
    them. At the place of the range where that pull is greatest, with friction as expected: the load, the pull that
    holds it, the elastics, and on every copy between the tip and what stands what the pin of the next joint passes.
    What else holds a copy is left to whoever asks. Cords whose tip or elastic is not known, or that no pull moves, are
    left out.

    Returns
    -------
    tuple of CopyLoads
        What may be at one time: the hardest first; then, where stops may hold joints, with no more pull than the others
        need; and, where cords of one finger cross the same joint, with each of them alone. Cords of one finger that
        cross no joint in common hold its one load together.

    Parameters
    ----------
    frames
        Where copies stand as drawn.
    strung
        Every cord with a path, by its name.
    """
    every: list[list[CopyLoads]] = []
    for bunches in _by_finger(job, solids, strung):
        for number, bunch in enumerate(bunches):
            tip_n = None if number else load_n
            every.append([at for each in bunch for at in _options(job, each, frames, load_n, tip_n)])
    every = [options for options in every if options]
    states = max(map(len, every), default=0)
    return tuple(_at_once([options[min(n, len(options) - 1)] for options in every]) for n in range(states))


def untold_by_cords(
    job: Job,
    solids: Mapping[str, Solid],
    mechanism: Mechanism,
    strung: Mapping[str, StrungCord | str],
    load_n: float,
) -> dict[str, str]:
    """Return the copies of closed loops on which :func:`tip_loads` puts not all that may act, each with why not."""
    told: dict[str, tuple[list[str], str]] = {}
    for cord in strung.values() if mechanism.loops else ():
        if isinstance(cord, StrungCord) and cord.cord.kind != "elastic":
            looped = [leg.joint.name for leg in cord.legs if in_loop(mechanism, leg.joint)]
            told[_name(cord)] = looped, UNHELD.format(cord.cord.name)
    for bunches in _by_finger(job, solids, strung) if mechanism.loops else ():
        for number, bunch in enumerate(bunches):
            for each in bunch:
                found = SHARED if number else _loop_states(job, each, load_n)
                told[_name(each[0])] = told[_name(each[0])][0], found if isinstance(found, str) else ""
    return untold_links(mechanism, told.values())


def _name(one: StrungCord) -> str:
    """Return what tells a cord from the others of its table."""
    return f"{one.cord.name} on {one.driven} to {one.stops[-1].copy}"


def _loop_states(job: Job, each: Holding, load_n: float) -> list[tuple[PointLoad, ...]] | str:
    """Return what a cord does to the links of its loop, state by state; else why that is not told."""
    one, joints, friction = each
    wanted = job.use.wanted_grip_n
    least_n = load_n if wanted is None else min(wanted, load_n)
    return loop_states(one, joints, friction, (least_n, load_n), kept_n(job, one))


def _by_finger(
    job: Job, solids: Mapping[str, Solid], strung: Mapping[str, StrungCord | str]
) -> Iterable[list[list[Holding]]]:
    """Return the cords of each finger, those together that cross a joint in common."""
    fingers: dict[str, list[list[Holding]]] = {}
    for each in holding_cords(job, solids, strung):
        bunches = fingers.setdefault(each[0].driven, [])
        mine = next((bunch for bunch in bunches if any(one.crossed & each[0].crossed for one, *_ in bunch)), None)
        if mine is None:
            bunches.append(mine := [])
        mine.append(each)
    return fingers.values()


def _at_once(every: Sequence[CopyLoads]) -> CopyLoads:
    """Return all loads on every copy that act at one time."""
    found: CopyLoads = {}
    for loads in every:
        for copy, mine in loads.items():
            found[copy] = (*found.get(copy, ()), *mine)
    return found


def holding_cords(job: Job, solids: Mapping[str, Solid], strung: Mapping[str, StrungCord | str]) -> Iterator[Holding]:
    """Yield every cord that can hold a load at a known tip, with the joints that it crosses and levels of friction.

    The joints are all under one load.
    """
    for one in strung.values():
        if not isinstance(one, StrungCord) or one.cord.kind == "elastic":
            continue
        tip = one.cord.grip_at_mm or job.part(part_of(one.driven)).load_at_mm
        if tip is None or one.tip_off:
            continue
        runs = [one.run(1.0, leg) for leg in one.legs]
        joints = driven_joints(job, solids, one, bands_on([one], strung), runs, tip, 1.0)
        if not isinstance(joints, str):
            yield one, under_one_load(joints), levels(friction_of(job, one.cord), job.limits.pin_friction)


def kept_n(job: Job, one: StrungCord) -> float:
    """Return the most of the pull that can be kept up which comes to a cord; infinite where that is not measured."""
    if job.use.pull_n is None:
        return inf
    kept = job.limits.cord_share.value * job.use.pull_n
    return kept / hand_pull_n(one.cord.equaliser, [1.0] * fingers_of(job, one))


def held_pulls(
    joints: Sequence[DrivenJoint], load_n: float, friction: Levels, most_n: float
) -> tuple[list[Ends], list[Ends], list[Ends]]:
    """Return the least and the most that a cord pulls to hold a load, at every place and level of friction.

    The most is what the hardest joint needs, but no more than ``most_n`` where stops may take the rest. A joint that no
    pull holds somewhere, as expected, must be held by something else: it asks for nothing. Empty where none is left.
    """
    asked = [(joint.on_stop, pull_over(joint, load_n, friction)) for joint in joints]
    asked = [(stops, over) for stops, over in asked if max(over.expected_n) < NO_PULL_N]
    if not asked:
        return [], [], []
    stops, pulls = zip(*asked, strict=True)
    low, expected, high = (
        [(least, max(least, min(most, most_n))) for least, most in chain_pulls(pulls, stops, level)]
        for level in range(3)
    )
    return low, expected, high


def tips(job: Job, frames: Mapping[str, Frame], strung: Mapping[str, StrungCord | str], load_n: float) -> CopyLoads:
    """Return a load at each tip of every copy that a cord drives, one at a time, in its mesh, as drawn.

    It acts as the part's ``load_dir`` says, else across the axis of the joint and the arm to it: where several cords
    drive one copy, each for itself.
    """
    found: CopyLoads = {}
    for one in strung.values():
        if not isinstance(one, StrungCord) or one.cord.kind == "elastic":
            continue
        part = job.part(part_of(one.driven))
        tip = part.load_at_mm or one.cord.grip_at_mm
        if tip is None or one.tip_off:
            continue
        back = frames[one.driven].inverse()
        arm = less(tip, back.point(one.joint.at_mm))
        way = part.load_dir or cross(back.direction(one.joint.axis), arm)
        if size(way) > 0.0:
            load = PointLoad(copy=one.driven, at_mm=tip, force_n=times(unit(way), load_n))
            found[one.driven] = tuple(dict.fromkeys((*found.get(one.driven, ()), load)))
    return found


def _options(
    job: Job, each: Holding, frames: Mapping[str, Frame], load_n: float, tip_n: float | None
) -> list[CopyLoads]:
    """Return what a cord does where its pull is greatest, and where least will do where stops may take the rest.

    ``tip_n`` is None where another cord of the finger brings the load in.
    """
    one, joints, friction = each
    states = _loop_states(job, each, load_n) if tip_n is not None and any(joint.loops for joint in joints) else ""
    if not isinstance(states, str):
        return [_by_copy(state) for state in states]
    pulls = held_pulls(joints, load_n, friction, kept_n(job, one))[1]
    if not pulls:
        return []
    ends = [max((pull[end], -k) for k, pull in enumerate(pulls)) for end in (1, 0)]
    wide = any(least < SAME_SHARE * most for least, most in pulls)
    found = []
    for pull_n, place in ends if wide else ends[:1]:
        found.append(_by_copy(_under(one, joints, frames, friction[1], -place, (pull_n, tip_n))))
    return found


def _by_copy(loads: Iterable[PointLoad]) -> CopyLoads:
    """Return loads by the copy that they act on."""
    found: CopyLoads = {}
    for load in loads:
        found[load.copy] = (*found.get(load.copy, ()), load)
    return found


def _under(
    one: StrungCord,
    joints: Sequence[DrivenJoint],
    frames: Mapping[str, Frame],
    friction: Friction,
    k: int,
    forces_n: tuple[float, float | None],
) -> Iterator[PointLoad]:
    """Yield all forces under a pull and a load at the tip, each in its copy's mesh."""
    joint, (pull_n, tip_n) = joints[0], forces_n
    motion = joint.motions[k]
    loads = list(scaled(joint.pull_loads(k, friction), pull_n))
    if tip_n is not None:
        loads += scaled([joint.grip_load(k)], tip_n)
    loads += _elastics(joints, k, friction)
    for load in loads:
        yield _in_mesh(load, motion.here[load.copy].inverse())
    if not joint.loops:
        yield from _passed(one, motion, loads, frames)


def _elastics(joints: Sequence[DrivenJoint], k: int, friction: Friction) -> Iterator[PointLoad]:
    """Yield what the elastics of all joints do, each once, whatever many of them it crosses."""
    seen: list[tuple[PathStop, ...]] = []
    for joint in joints:
        own = tuple(band for band in joint.elastics if band.stops not in seen)
        seen += [band.stops for band in own]
        yield from replace(joint, elastics=own).elastic_loads(k, friction)


def _passed(
    one: StrungCord, motion: Motion, loads: Sequence[PointLoad], frames: Mapping[str, Frame]
) -> Iterator[PointLoad]:
    """Yield what each joint between the tip and what stands passes on: the sum of all loads beyond it.

    A pin passes no moment about its axis.
    """
    for joint, stands, beyond in beyond_each(one.mechanism, one.driven):
        if stands not in frames:
            continue
        drawn, here = frames[stands].inverse(), motion.here[stands]
        at_mm, axis = here.point(drawn.point(joint.at_mm)), here.direction(drawn.direction(joint.axis))
        couple = moment_n_mm(loads, beyond, at_mm)
        if joint.kind == "turns":
            couple = less(couple, times(axis, dot(couple, axis)))
        load = PointLoad(
            copy=stands,
            at_mm=at_mm,
            force_n=resultant_n(loads, beyond),
            couple_n_mm=couple,
            over=tuple(bore for copy, bore in joint.bores if copy == stands),
        )
        yield _in_mesh(load, here.inverse())


def _in_mesh(load: PointLoad, back: Frame) -> PointLoad:
    """Return a force of the device in its copy's own mesh."""
    return replace(
        load,
        at_mm=back.point(load.at_mm),
        force_n=back.direction(load.force_n),
        couple_n_mm=back.direction(load.couple_n_mm),
    )
