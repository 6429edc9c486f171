"""A cord over the range of a joint: length, arm, where it rubs, how much must be pulled, and where it jams."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from planner.mechanism.cord.path.path_stop import PathStop
from planner.mechanism.cord.placed_stop import stand
from planner.mechanism.cord.rubs import Rub, rubs_of
from planner.mechanism.cord.small_moves import Motion
from planner.mechanism.cord.taut import Taut, taut

JUMP_MM = 0.5
"""Neighbouring lengths may differ by this much more than the arm explains before the cord counts as jumping."""
NO_ARM_MM = 1e-6
"""An arm of less is none: the cord's line goes through the axis."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CordRun:
    """A cord at some angles, all lengths at size.

    Parameters
    ----------
    angles_deg
        Rising, or falling where another joint of the same cord leads; for a joint that slides, places in mm.
    length_mm
        From the first stop to the last.
    arm_mm
        dL/dtheta in mm per radian: positive where the cord gets longer as the angle grows, so that pulling turns the
        joint the other way (excursion method: An et al. 1983, J Biomech 16:419, from memory). For a joint that slides
        it is dL/dx, without a unit.
    cords, rubs
        The taut cord, and where it rubs, at each angle.
    """

    angles_deg: tuple[float, ...]
    length_mm: tuple[float, ...]
    arm_mm: tuple[float, ...]
    cords: tuple[Taut, ...]
    rubs: tuple[tuple[Rub, ...], ...]
    slides: bool = False

    @property
    def travel_mm(self) -> float:
        """How much cord must be pulled from one end of the angles to the other, with what is let out between."""
        return max(self.length_mm) - min(self.length_mm)

    @property
    def closed(self) -> int:
        """The place at the end of the range that pulling leads to, counted from 0."""
        return 0 if self.length_mm[0] < self.length_mm[-1] else len(self.length_mm) - 1

    @property
    def dead_deg(self) -> tuple[float, ...]:
        """Angles at which the arm changes its sign: beyond them the same pull turns the joint back."""
        sided = [(a, p) for a, p in zip(self.angles_deg, self.arm_mm, strict=True) if abs(p) > NO_ARM_MM]
        return tuple(a + (b - a) * p / (p - q) for (a, p), (b, q) in pairwise(sided) if p * q < 0.0)

    def explained_mm(self, k: int) -> float:
        """Return the most that the arm lets the length change from place ``k`` to the next."""
        step = self.angles_deg[k + 1] - self.angles_deg[k]
        way = abs(step if self.slides else math.radians(step))
        return max(abs(self.arm_mm[k]), abs(self.arm_mm[k + 1])) * way


def jumps_of(runs: Sequence[CordRun]) -> tuple[int, ...]:
    """Return the places after which a cord's length jumps; ``runs`` are one cord about each of its joints."""
    lengths = runs[0].length_mm
    return tuple(
        k
        for k in range(len(lengths) - 1)
        if abs(lengths[k + 1] - lengths[k]) > 2.0 * sum(run.explained_mm(k) for run in runs) + JUMP_MM
    )


def run_of(stops: Sequence[PathStop], motions: Sequence[Motion], factor: float, cord_mm: float) -> CordRun:
    """Return a cord over the range of a joint, at a scale; its stops must be settled, the places rise."""
    cords, arms = [], []
    for motion in motions:
        cords.append(taut(stand(stops, motion.here, factor, cord_mm)))
        more = taut(stand(stops, motion.after, factor, cord_mm)).length_mm
        fewer = taut(stand(stops, motion.before, factor, cord_mm)).length_mm
        arms.append((more - fewer) / motion.per(factor))
    return CordRun(
        angles_deg=tuple(motion.at_deg for motion in motions),
        length_mm=tuple(cord.length_mm for cord in cords),
        arm_mm=tuple(arms),
        cords=tuple(cords),
        rubs=tuple(rubs_of(stops, cord, factor, cord_mm) for cord in cords),
        slides=motions[0].slides,
    )
