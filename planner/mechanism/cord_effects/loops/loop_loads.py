"""What the pins of a closed loop do to its links, over the whole range and the range of friction."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace

import networkx as nx
import numpy as np

from planner.finding import Vec3
from planner.mechanism.cord_effects.cord_on_joint import StrungCord
from planner.mechanism.cord_effects.loop_bearings import bearing_joints
from planner.mechanism.force.driven_joint import STANDS, DrivenJoint
from planner.mechanism.force.loop_balance import LoopBalance
from planner.mechanism.force.loop_passes import Passed, passed, told_by_statics
from planner.mechanism.force.point_load import PointLoad, scaled
from planner.mechanism.force.pull_range import Levels
from planner.mechanism.mechanism import Mechanism
from planner.phrases import listed

Placed = tuple[int, int, float, Passed]
"""A level of friction, a place of the range, the grip there, and what the joints pass."""
LINK = "it is a link of the closed loop of {0}, whose pins may press it harder: {1}"
NO_CORD = "no cord is known to drive it"
SEVERAL = "{0} crosses other joints as well"
NOT_STATICS = (
    "statics do not tell how its links share the load: more links or pins hold it than it needs, or its axes are not "
    "parallel"
)
NO_BALANCE = "at {0:.0f}{1} no pull of {2} holds {3:.3g} N at the tip: something else must"


def loop_states(
    one: StrungCord, joints: Sequence[DrivenJoint], friction: Levels, grips_n: tuple[float, float], kept_n: float
) -> list[tuple[PointLoad, ...]] | str:
    """Return the forces on all links of a cord's loop at its worst places, in each copy's mesh; else why not.

    At each place the cord holds the larger grip, as far as the pull that can be kept up builds it, and the smaller one
    in any case. Of all places and levels of friction those are returned at which the pull, or the force or the couple
    of any joint is greatest.

    Parameters
    ----------
    joints
        That the cord crosses: the one that leads its loop.
    grips_n
        The grip that is wanted, and the hardest, no less than that.
    kept_n
        Pull of this cord that can be kept up.
    """
    joint = joints[0]
    if len(joints) != 1 or not joint.loops:
        return SEVERAL.format(one.cord.name)
    if not all(told_by_statics(joint.loops[k], STANDS) for k in (0, len(joint.loops) // 2, -1)):
        return NOT_STATICS
    every = list[Placed]()
    for level, at in enumerate(friction):
        for k in range(len(joint.motions)):
            balance = joint.balance(k, at)
            if not isinstance(balance, LoopBalance) or balance.smooth.grip_mm < 0.0:
                continue  # past its dead point, which is told for itself
            grip_n = _grip_n(balance, grips_n, kept_n, at.pin_ratio)
            found = passed(balance, grip_n, at.pin_ratio)
            if found is None:
                unit = " mm" if joint.pull.run.slides else "°"
                return NO_BALANCE.format(joint.pull.run.angles_deg[k], unit, one.cord.name, grip_n)
            every.append((level, k, grip_n, found))
    return [tuple(_in_place(one, joint, friction, state)) for state in _worst(every)]


def untold_links(mechanism: Mechanism, told: Iterable[tuple[Collection[str], str]]) -> dict[str, str]:
    """Return the copies of closed loops whose pins' forces are not known, each with why.

    ``told`` are the joints in loops that each cord drives, with why its loop is not told; empty where it is.
    """
    drives = list(told)
    found: dict[str, str] = {}
    linked: nx.Graph[str] = nx.Graph()
    for loop in mechanism.loops:
        nx.add_path(linked, loop)
    for names in nx.connected_components(linked):
        whys = {why for joints, why in drives if names & set(joints)}
        if whys != {""}:
            why = min(whys - {""}, default=NO_CORD)
            copies = sorted({copy for joint in mechanism.joints if joint.name in names for copy in joint.parts})
            found |= dict.fromkeys(copies, LINK.format(listed(copies), why))
    return found


def _grip_n(balance: LoopBalance, grips_n: tuple[float, float], kept_n: float, pin_ratio: float) -> float:
    """Return the grip at a place: the hardest that the kept pull builds up, and no less than what is wanted."""
    wanted, hardest = grips_n
    if hardest <= wanted or math.isinf(kept_n):
        return hardest
    return max(wanted, min(hardest, balance.grip_for_n(kept_n, pin_ratio)))


def _worst(every: Sequence[Placed]) -> list[Placed]:
    """Return once each the places at which something is greatest: the pull, then each joint's force and couple."""
    if not every:
        return []
    sizes = [
        np.concatenate([[one.pull_n], np.linalg.norm(one.forces_n, axis=1), np.linalg.norm(one.couples_n_mm, axis=1)])
        for *_, one in every
    ]
    return [every[n] for n in dict.fromkeys(int(n) for n in np.round(np.array(sizes), 6).argmax(axis=0))]


def _in_place(one: StrungCord, joint: DrivenJoint, friction: Levels, state: Placed) -> Iterator[PointLoad]:
    """Yield all forces of one state, in the meshes of their copies."""
    level, k, grip_n, found = state
    at, motion = friction[level], joint.motions[k]
    loads = [*scaled(joint.pull_loads(k, at), found.pull_n), *scaled([joint.grip_load(k)], grip_n)]
    loads += joint.elastic_loads(k, at)
    for number, pin in enumerate(bearing_joints(one.mechanism, joint.bodies)):
        force, couple = found.forces_n[number], found.couples_n_mm[number]
        for copy, sign in zip(pin.parts, (-1.0, 1.0), strict=True):
            loads.append(
                PointLoad(
                    copy=copy,
                    at_mm=joint.loops[k][number].at_mm,
                    force_n=_vec(sign * force),
                    couple_n_mm=_vec(sign * couple),
                    over=tuple(bore for mine, bore in pin.bores if mine == copy),
                )
            )
    for load in loads:
        back = motion.here[load.copy].inverse()
        yield replace(
            load,
            at_mm=back.point(load.at_mm),
            force_n=back.direction(load.force_n),
            couple_n_mm=back.direction(load.couple_n_mm),
        )


def _vec(values: np.ndarray) -> Vec3:
    """Return three numbers."""
    x, y, z = (float(value) for value in values)
    return x, y, z
