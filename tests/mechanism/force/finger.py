"""A finger of three segments on one cord, drawn straight along x, with its statics by hand in the plane."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence

from planner.mechanism import STILL, Frame
from planner.mechanism.cord.cord_run import run_of
from planner.mechanism.cord.path.path_stop import PathStop, PointStop
from planner.mechanism.cord.small_moves import motions_over
from planner.mechanism.force.driven_joint import DrivenJoint, Strung

AXES_MM, TIP_MM, DEEP_MM = (0.0, 30.0, 56.0), 76.0, 9.0
"""Where the joints and the tip lie on x, and how far below them the eyes of the cord do."""
EYES_MM = (-10.0, 15.0, 43.0, 67.0)
BODIES = ("base", "s1", "s2", "s3")
BENT_DEG = (-40.0, -30.0, -20.0)
"""As far as the range goes, the joint at the base first."""
SHARES = (0.0, 0.5, 1.0)


def finger(on_stop: Sequence[bool] = (False, False, False)) -> list[DrivenJoint]:
    """Return the joints as a cord has them, the nearest to the tip first; which of them may rest on their stops."""
    eyes: tuple[PathStop, ...] = tuple(
        PointStop(copy=body, at_mm=(x, -DEEP_MM, 0.0)) for body, x in zip(BODIES, EYES_MM, strict=True)
    )
    joints = []
    for number in (2, 1, 0):
        motions = tuple(
            motion
            for share in SHARES
            for motion in motions_over(
                lambda deg, share=share: _frames([deg if n == number else share * q for n, q in enumerate(BENT_DEG)]),  # type: ignore[misc]  # noqa: B023
                [share * BENT_DEG[number]],
            )
        )
        run = run_of(eyes, motions, 1.0, 1.0)
        joints.append(
            DrivenJoint(
                motions=motions,
                factor=1.0,
                moving=frozenset(BODIES[number + 1 :]),
                axis=(0.0, 0.0, 1.0),
                pin_mm=0.0,
                pull=Strung(stops=eyes, run=run),
                tip=("s3", (TIP_MM, 0.0, 0.0)),
                on_stop=on_stop[number],
            )
        )
    return joints


def needs_n(share: float, load_n: float) -> tuple[float, ...]:
    """Return the pull that each joint needs under one load across the last segment: moment over arm, tip joint first.

    In the plane of complex numbers: the arm of a cord between two eyes about the axis between them is the distance of
    its line (excursion method, An et al. 1983), the load's is that of its own line.
    """
    turns = [share * math.radians(q) for q in BENT_DEG]

    def stands(x_mm: float, y_mm: float, body: int) -> complex:
        at = complex(x_mm, y_mm)
        for axis, turn in list(zip(AXES_MM, turns, strict=True))[:body][::-1]:
            at = axis + (at - axis) * cmath.exp(1j * turn)
        return at

    def about(axis: complex, at: complex, way: complex) -> float:
        return ((at - axis).conjugate() * way / abs(way)).imag

    eyes = [stands(x, -DEEP_MM, body) for body, x in enumerate(EYES_MM)]
    tip, up = stands(TIP_MM, 0.0, 3), cmath.exp(1j * (sum(turns) + math.pi / 2))
    found = []
    for number in (2, 1, 0):
        axis = stands(AXES_MM[number], 0.0, number)
        arm = about(axis, eyes[number + 1], eyes[number] - eyes[number + 1])
        found.append(-load_n * about(axis, tip, up) / arm)
    return tuple(found)


def _frames(turns_deg: Sequence[float]) -> dict[str, Frame]:
    """Return where the segments stand with their joints at such angles."""
    found = {"base": STILL}
    for body in (1, 2, 3):
        frame = STILL
        for axis, deg in list(zip(AXES_MM, turns_deg, strict=True))[:body][::-1]:
            frame = frame.turned_about((0.0, 0.0, 1.0), (axis, 0.0, 0.0), deg)
        found[BODIES[body]] = frame
    return found
