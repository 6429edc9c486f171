"""Room beside a part on its pin: how far it floats along the axis, and tilts, until faces of both sides touch."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
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
    """Room of the moving part of a joint, as drawn: float to one side, and tilt; infinite where faces do not hold it.

    ``float_mm`` is half of what lies between its faces and those on both sides, wherever between them it is drawn.
    """

    float_mm: float
    tilt_rad: float


OPEN = FaceRoom(float_mm=0.0, tilt_rad=math.inf)
"""Nothing on both sides of it, or nothing that can be told."""


def face_room(solids: Mapping[str, Solid], mechanism: Mechanism, joint: MovingJoint, tip_mm: Vec3) -> FaceRoom:
    """Return the room of a joint's moving part in its standing one, tilting so that a tip goes along the axis.

    Hardware is left out. A part that has a face on one side only lifts off it and tilts; there, where both overlap as
    drawn, or where a mesh has faults, the bores alone count.
    """
    pairs = _pairs(solids, mechanism, joint)
    if pairs is None:
        return OPEN
    axis, arm = np.array(joint.axis), np.array(tip_mm) - np.array(joint.at_mm)
    across = np.cross(axis, arm)
    if float(np.linalg.norm(across)) < 1e-9:
        return OPEN
    lever = [float(v) for v in across / np.linalg.norm(across)]
    up, down = (
        _most(lambda mm, sign=sign: _meet(pairs, STILL.slid_along(joint.axis, sign * mm)), FLOAT_MOST_MM)  # type: ignore[misc]
        for sign in (1.0, -1.0)
    )
    if max(up, down) >= FLOAT_MOST_MM:
        return OPEN
    tilt_deg = 0.0
    # a part that faces hold on one side of its pin only tilts most where it lies on one of them
    for slid in (up, (up - down) / 2.0, -down):
        there = STILL.slid_along(joint.axis, slid)
        for sign in (1.0, -1.0):

            def meets(deg: float, there: Frame = there, sign: float = sign) -> bool:
                return _meet(pairs, there.turned_about(lever, joint.at_mm, sign * deg))

            if not meets(tilt_deg):
                tilt_deg = max(tilt_deg, _most(meets, TILT_MOST_DEG))
    tilt = math.inf if tilt_deg >= TILT_MOST_DEG else math.radians(tilt_deg)
    return FaceRoom(float_mm=(up + down) / 2.0, tilt_rad=tilt)


def _pairs(
    solids: Mapping[str, Solid], mechanism: Mechanism, joint: MovingJoint
) -> list[tuple[manifold3d.Manifold, manifold3d.Manifold]] | None:
    """Return what may meet, as drawn: every copy fast on the standing side with every one on the moving side.

    Those that overlap as drawn are left out; None where the joint's own parts do, or cannot be tried.
    """
    shapes = {copy: _shape(solids, mechanism, copy) for copy in mechanism.frames}
    own = shapes.get(joint.parts[0]), shapes.get(joint.parts[1])
    if own[0] is None or own[1] is None or _meet([(own[0], own[1])], STILL):
        return None
    sides = [next((group for group in mechanism.groups if copy in group), (copy,)) for copy in joint.parts]
    pairs = [(one, other) for a in sides[0] for b in sides[1] if (one := shapes.get(a)) and (other := shapes.get(b))]
    return [pair for pair in pairs if not _meet([pair], STILL)]


def _shape(solids: Mapping[str, Solid], mechanism: Mechanism, copy: str) -> manifold3d.Manifold | None:
    """Return a copy in the drawn frame; None where its mesh has faults, or its place is not known."""
    shape, frame = solids[part_of(copy)].manifold, mechanism.frames.get(copy)
    return None if shape is None or frame is None else shape.transform(frame.matrix())


def _meet(pairs: Sequence[tuple[manifold3d.Manifold, manifold3d.Manifold]], frame: Frame) -> bool:
    """Return whether the bodies of any pair share volume, the second ones moved."""
    matrix = frame.matrix()
    return any(bool((stands ^ moves.transform(matrix)).volume() > MEET_MM3) for stands, moves in pairs)


def _most(meets: Callable[[float], bool], most: float) -> float:
    """Return how far it goes before it meets, by halving; ``most`` where it meets nothing up to there."""
    if not meets(most):
        return most
    low, high = 0.0, most
    for _ in range(STEPS_N):
        middle = (low + high) / 2
        low, high = (low, middle) if meets(middle) else (middle, high)
    return low
