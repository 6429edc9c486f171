"""Forces that joints carry between the bodies of a linkage, from the loads on them, by statics."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mechanism.cord.vectors import cross, less
from planner.mechanism.force.point_load import PointLoad

Floats = NDArray[np.float64]
ARM_MM = 10.0
"""Moments count as forces at this arm where statics leave a choice between them; no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bearing:
    """A joint between two bodies, where it stands now, at size.

    Parameters
    ----------
    bodies
        Numbers of the body that stands and of the one that moves on it.
    axis, at_mm
        Its line.
    slides
        Whether it slides along the line instead of turning about it.
    about
        Of a pin that slides in a slot: the axis that it turns about as well. Else None.
    radius_mm
        At which its friction acts; for one that slides 1.
    speed_ratio
        How fast it turns (or slides) for a radian of the joint that leads.
    pin, part
        The hardware in it, and the part that moves on it.
    """

    bodies: tuple[int, int]
    axis: Vec3
    at_mm: Vec3
    slides: bool = False
    about: Vec3 | None = None
    radius_mm: float = 0.0
    speed_ratio: float = 1.0
    pin: str = ""
    part: str = ""


def reactions_n(bearings: Sequence[Bearing], loads: Sequence[tuple[int, PointLoad]], stands: int) -> tuple[Vec3, ...]:
    """Return the force that each joint passes from its standing to its moving body.

    Every body but the one that stands is in balance (Newton, textbook). A joint passes any force and moment but the
    moment about its axis, or, where it slides, the force along it. Where a linkage is held more often than it needs,
    as any flat loop in space is, the least forces are taken.
    """
    bodies = sorted({body for bearing in bearings for body in bearing.bodies} - {stands})
    row = {body: 6 * k for k, body in enumerate(bodies)}
    columns: list[Floats] = []
    forces: list[tuple[int, Floats]] = []
    for number, bearing in enumerate(bearings):
        for way, moment in _passes(bearing):
            column = np.zeros(6 * len(bodies))
            total = np.concatenate([way, (np.cross(bearing.at_mm, way) + moment) / ARM_MM])
            for body, sign in zip(bearing.bodies, (-1.0, 1.0), strict=True):
                if body in row:
                    column[row[body] : row[body] + 6] += sign * total
            columns.append(column)
            forces.append((number, way))
    wanted = np.zeros(6 * len(bodies))
    for body, load in loads:
        if body in row:
            moment = np.array(cross(load.at_mm, load.force_n)) / ARM_MM
            wanted[row[body] : row[body] + 6] -= np.concatenate([np.array(load.force_n), moment])
    shares = np.linalg.lstsq(np.array(columns).T, wanted, rcond=None)[0]
    found = [np.zeros(3) for _ in bearings]
    for (number, way), share in zip(forces, shares, strict=True):
        found[number] = found[number] + share * way
    return tuple((float(x), float(y), float(z)) for x, y, z in found)


def _passes(bearing: Bearing) -> list[tuple[Floats, Floats]]:
    """Return the unit forces and moments about its point that a joint passes."""
    axis, nothing = np.array(bearing.axis), np.zeros(3)
    side = np.linalg.svd(axis[None])[2][1:]
    forces = [*side] if bearing.slides else [*side, axis]
    moments = [*side, axis] if bearing.slides else [*side]
    if bearing.about is not None:
        moments = [*np.linalg.svd(np.array(bearing.about)[None])[2][1:]]
    return [(force, nothing) for force in forces] + [(nothing, ARM_MM * moment) for moment in moments]


def rubbing_n_mm(bearings: Sequence[Bearing], forces: Sequence[Vec3], friction_ratio: float) -> float:
    """Return the work that friction takes for a radian of the joint that leads: mu r N at each, times its turn."""
    total = 0.0
    for bearing, force in zip(bearings, forces, strict=True):
        along = sum(a * b for a, b in zip(force, bearing.axis, strict=True))
        across = less(force, (along * bearing.axis[0], along * bearing.axis[1], along * bearing.axis[2]))
        total += bearing.radius_mm * abs(bearing.speed_ratio) * float(np.linalg.norm(across))
    return friction_ratio * total
