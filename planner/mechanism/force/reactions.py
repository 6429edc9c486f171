"""Forces that joints carry between the bodies of a linkage, from the loads on them, by statics."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mechanism.cord.vectors import cross, less
from planner.mechanism.force.point_load import PointLoad

Floats = NDArray[np.float64]
STILL_RATIO = 1e-4
"""A joint that goes slower than this, as the one that leads goes by 1, rubs neither way."""
FREE = 1e-9
"""What joints pass without any load is told from rounding by this share."""
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
    rubs_about_mm
        Of such a pin: the radius at which it rubs as it turns, below nothing where it turns against that axis.
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
    rubs_about_mm: float = 0.0
    radius_mm: float = 0.0
    speed_ratio: float = 1.0
    pin: str = ""
    part: str = ""


class Statics:
    """The forces that joints pass between the bodies of a linkage, which are linear in all that acts on them.

    Every body but the one that stands is in balance (Newton, textbook). A joint passes any force and moment but the
    moment about its axis, or, where it slides, the force along it. Where a linkage is held more often than it needs,
    as any flat loop in space is, the least forces are taken.
    """

    def __init__(self, bearings: Sequence[Bearing], stands: int) -> None:
        """Take the joints, where they stand, and the number of what does not move."""
        self.bearings = bearings
        bodies = sorted({body for bearing in bearings for body in bearing.bodies} - {stands})
        self._row = {body: 6 * k for k, body in enumerate(bodies)}
        columns: list[Floats] = []
        self._forces: list[tuple[int, Floats]] = []
        self._moments: list[Floats] = []
        for number, bearing in enumerate(bearings):
            for way, moment in _passes(bearing):
                columns.append(self._between(bearing, way, moment))
                self._forces.append((number, way))
                self._moments.append(moment)
        self._matrix = np.array(columns).T
        self._back = np.linalg.pinv(self._matrix, rcond=max(self._matrix.shape) * float(np.finfo(float).eps))

    def under(self, loads: Sequence[tuple[int, PointLoad]]) -> Floats:
        """Return the force of each joint's standing on its moving body, (n, 3): balanced loads alone have a meaning."""
        return self._passed(self._wanted(loads))

    def whole(
        self, loads: Sequence[tuple[int, PointLoad]], rubs: Sequence[float], sense: float
    ) -> tuple[Floats, Floats, float]:
        """Return the forces and the couples that joints pass to their moving bodies, (n, 3) each, and what is left.

        Couples are about each joint's point. Each joint rubs with so many N mm of ``rubs``, or N where it slides. Left
        is the share of the loads that no forces in the joints bring into balance.
        """
        wanted = self._wanted(loads)
        most = float(np.linalg.norm(wanted))
        forces, couples = np.zeros((len(self.bearings), 3)), np.zeros((len(self.bearings), 3))
        for number, (bearing, rub) in enumerate(zip(self.bearings, rubs, strict=True)):
            if abs(bearing.speed_ratio) < STILL_RATIO:
                continue
            force, couple = _rub(bearing, sense)
            forces[number], couples[number] = rub * force, rub * couple
            wanted -= self._between(bearing, forces[number], couples[number])
        shares = self._back @ wanted
        left = float(np.linalg.norm(wanted - self._matrix @ shares))
        for (number, way), moment, share in zip(self._forces, self._moments, shares, strict=True):
            forces[number] += share * way
            couples[number] += share * moment
        return forces, couples, left / most if most > 0.0 else 0.0

    def free_shares(self) -> Iterator[tuple[Floats, Floats]]:
        """Yield the forces and couples, (n, 3) each, with which joints may press each other under no load at all."""
        _, sizes, ways = np.linalg.svd(self._matrix)
        rank = int((sizes > FREE * sizes[0]).sum())
        for shares in ways[rank:]:
            forces, couples = np.zeros((len(self.bearings), 3)), np.zeros((len(self.bearings), 3))
            for (number, way), moment, share in zip(self._forces, self._moments, shares, strict=True):
                forces[number] += share * way
                couples[number] += share * moment / ARM_MM
            yield forces, couples

    def _wanted(self, loads: Sequence[tuple[int, PointLoad]]) -> Floats:
        """Return what the joints must bring to each body against its loads."""
        wanted = np.zeros(6 * len(self._row))
        for body, load in loads:
            if body in self._row:
                moment = np.array(cross(load.at_mm, load.force_n)) / ARM_MM
                wanted[self._row[body] : self._row[body] + 6] -= np.concatenate([np.array(load.force_n), moment])
        return wanted

    def rubbed(self, number: int, sense: float) -> Floats:
        """Return the same under 1 N mm, or 1 N where it slides, with which a joint rubs against its own motion."""
        bearing = self.bearings[number]
        if abs(bearing.speed_ratio) < STILL_RATIO:
            return np.zeros((len(self.bearings), 3))
        return self._passed(-self._between(bearing, *_rub(bearing, sense)))

    def _between(self, bearing: Bearing, force: Floats, moment: Floats) -> Floats:
        """Return what a force and a moment that a joint passes do to its two bodies, one way and the other."""
        column = np.zeros(6 * len(self._row))
        total = np.concatenate([force, (np.cross(bearing.at_mm, force) + moment) / ARM_MM])
        for body, sign in zip(bearing.bodies, (-1.0, 1.0), strict=True):
            if body in self._row:
                column[self._row[body] : self._row[body] + 6] += sign * total
        return column

    def _passed(self, wanted: Floats) -> Floats:
        """Return the forces of the joints whose sum on every body is a given one."""
        found = np.zeros((len(self.bearings), 3))
        for (number, way), share in zip(self._forces, self._back @ wanted, strict=True):
            found[number] += share * way
        return found


def reactions_n(bearings: Sequence[Bearing], loads: Sequence[tuple[int, PointLoad]], stands: int) -> tuple[Vec3, ...]:
    """Return the force that each joint passes from its standing to its moving body."""
    return tuple((float(x), float(y), float(z)) for x, y, z in Statics(bearings, stands).under(loads))


def _rub(bearing: Bearing, sense: float) -> tuple[Floats, Floats]:
    """Return the force and the couple on the moving body by which a joint rubs with 1 N mm, or 1 N where it slides."""
    way = -math.copysign(1.0, sense * bearing.speed_ratio) * np.array(bearing.axis)
    if not bearing.slides:
        return np.zeros(3), way
    if bearing.about is None:
        return way, np.zeros(3)
    return way, -math.copysign(1.0, sense) * bearing.rubs_about_mm * np.array(bearing.about)


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
