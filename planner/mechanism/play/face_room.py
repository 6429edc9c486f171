"""Room beside a part on its pin: how far it floats along the axis, and tilts, until faces of both sides touch."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import manifold3d
import numpy as np

from planner.finding import Vec3
from planner.job import part_of
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.places.frame import STILL, Frame
from planner.mesh import Solid

FLOAT_MOST_MM, TILT_MOST_DEG = 3.0, 12.0
"""More room than this is none that a bore would use up."""
STEPS_N = 8
"""Halvings: the float is found to a hundredth of a mm, the tilt to a twentieth of a degree."""
MEET_MM3 = 1e-4
"""Common volume from which two solids meet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceRoom:
    """Room of the moving part of a joint, as drawn: float to one side, and tilt; infinite where nothing is met."""

    float_mm: float
    tilt_rad: float


OPEN = FaceRoom(float_mm=0.0, tilt_rad=math.inf)
"""Nothing beside it, or nothing that can be told."""


def face_room(solids: Mapping[str, Solid], mechanism: Mechanism, joint: MovingJoint, tip_mm: Vec3) -> FaceRoom:
    """Return the room of a joint's moving part in its standing one, tilting so that a tip goes along the axis.

    Both as drawn, hardware left out; where they overlap as drawn, or a mesh has faults, the bores alone count.
    """
    stands, moves = (_shape(solids, mechanism, copy) for copy in joint.parts)
    if stands is None or moves is None or _meet(stands, moves, STILL):
        return OPEN
    axis, arm = np.array(joint.axis), np.array(tip_mm) - np.array(joint.at_mm)
    across = np.cross(axis, arm)
    if float(np.linalg.norm(across)) < 1e-9:
        return OPEN
    lever = [float(v) for v in across / np.linalg.norm(across)]
    floats = [
        _most(lambda mm, sign=sign: _meet(stands, moves, STILL.slid_along(joint.axis, sign * mm)), FLOAT_MOST_MM)  # type: ignore[misc]
        for sign in (1.0, -1.0)
    ]
    tilts = [
        _most(
            lambda deg, sign=sign: _meet(stands, moves, STILL.turned_about(lever, joint.at_mm, sign * deg)),  # type: ignore[misc]
            TILT_MOST_DEG,
        )
        for sign in (1.0, -1.0)
    ]
    tilt = max(tilts)
    room = 0.0 if max(floats) >= FLOAT_MOST_MM else max(floats)
    return FaceRoom(float_mm=room, tilt_rad=math.inf if tilt >= TILT_MOST_DEG else math.radians(tilt))


def _shape(solids: Mapping[str, Solid], mechanism: Mechanism, copy: str) -> manifold3d.Manifold | None:
    """Return a copy in the drawn frame; None where its mesh has faults, or its place is not known."""
    shape, frame = solids[part_of(copy)].manifold, mechanism.frames.get(copy)
    return None if shape is None or frame is None else shape.transform(frame.matrix())


def _meet(stands: manifold3d.Manifold, moves: manifold3d.Manifold, frame: Frame) -> bool:
    """Return whether two bodies share volume, one of them moved."""
    return bool((stands ^ moves.transform(frame.matrix())).volume() > MEET_MM3)


def _most(meets: Callable[[float], bool], most: float) -> float:
    """Return how far it goes before it meets, by halving; ``most`` where it meets nothing up to there."""
    if not meets(most):
        return most
    low, high = 0.0, most
    for _ in range(STEPS_N):
        middle = (low + high) / 2
        low, high = (low, middle) if meets(middle) else (middle, high)
    return low
