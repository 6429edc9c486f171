"""Flat loops for tests, led by a joint that a cord turns."""

from __future__ import annotations

from collections.abc import Sequence
from types import SimpleNamespace
from typing import Any

from planner.finding import Vec3
from planner.mechanism import Mechanism, MovingJoint
from planner.mechanism.cord.cord_run import run_of
from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.small_moves import motions_over
from planner.mechanism.cord_effects.loop_bearings import loop_bearings, moving_bodies
from planner.mechanism.force.driven_joint import DrivenJoint, Strung
from tests.mechanism.invented import Device
from tests.shapes import cuboid

Pair = tuple[str, str]


def turning(pair: Pair, at: Sequence[float]) -> MovingJoint:
    """Return a joint that turns about z, with a pin."""
    return MovingJoint(
        name=" to ".join(pair),
        parts=pair,
        kind="turns",
        axis=(0.0, 0.0, 1.0),
        at_mm=(float(at[0]), float(at[1]), float(at[2]) if len(at) > 2 else 0.0),
        pin="pin",
        bores=((pair[0], "b1"), (pair[1], "b1")),
    )


def sliding(pair: Pair, at: Sequence[float], axis: Vec3 = (1.0, 0.0, 0.0)) -> MovingJoint:
    """Return a joint that slides."""
    x, y = at
    return MovingJoint(name=" to ".join(pair), parts=pair, kind="slides", axis=axis, at_mm=(x, y, 0.0))


def mechanism(joints: Sequence[MovingJoint]) -> Mechanism:
    """Return the mechanism of joints; their bodies are cubes that are in no other's way."""
    names = dict.fromkeys(copy for joint in joints for copy in joint.parts)
    ranges: dict[str, tuple[float | None, float | None]] = {joints[0].name: (None, None)}
    return Device(
        name="loop", solids={name: cuboid(1, 1, 1) for name in names}, joints=tuple(joints), ranges=ranges
    ).mechanism()


def driven(
    job: Any, of: Mechanism, lead: str, places: Sequence[float], path: tuple[PathStop, ...], tip: tuple[str, Vec3]
) -> tuple[Any, DrivenJoint]:
    """Return the cord ``pull`` on a loop, and the joint that leads it with all that acts on it."""
    motions = motions_over(lambda deg: of.frames_at({lead: deg}), places)
    bodies = moving_bodies(of, motions[0])
    joint = DrivenJoint(
        motions=motions,
        factor=1.0,
        moving=frozenset(bodies),
        axis=(0.0, 0.0, 1.0),
        pin_mm=2.0,
        pull=Strung(stops=path, run=run_of(path, motions, 1.0, 1.0)),
        tip=tip,
        loops=tuple(loop_bearings(job, of, motion, bodies, 1.0) for motion in motions),
        bodies=bodies,
    )
    return SimpleNamespace(cord=SimpleNamespace(name="pull"), mechanism=of), joint
