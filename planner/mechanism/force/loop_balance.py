"""Pull for a grip and grip for a pull through a closed loop, with the friction of all its pins."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mechanism.force.balance import Balance
from planner.mechanism.force.point_load import PointLoad, scaled
from planner.mechanism.force.reactions import Bearing, Statics, rubbing_n_mm

ROUNDS_N = 300
SAME_N, SAME_SHARE = 1e-9, 1e-9
MOST_N = 1e7
"""Forces that grow beyond this find no balance: the linkage locks by its friction."""
Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, eq=False)  # no slots: its statics are found once
class LoopBalance:
    """What turns a joint that leads a closed loop.

    Parameters
    ----------
    smooth
        The balance without the friction of pins: virtual work knows no forces between bodies.
    bearings
        The joints of the loop, where they stand now.
    bodies
        The number of each copy's body; ``stands`` is that of what does not move.
    pull, grip, rest
        What 1 N of pull, 1 N at the tip and all else do to copies.
    """

    smooth: Balance
    bearings: tuple[Bearing, ...]
    bodies: Mapping[str, int]
    stands: int
    pull: tuple[PointLoad, ...]
    grip: PointLoad
    rest: tuple[PointLoad, ...]
    sense: int = 1
    """1 where the joint that leads turns in its own sense as the cord is pulled, else -1."""

    def pull_for_n(self, grip_n: float, friction_ratio: float) -> float:
        """Return the pull that builds up a grip against the pins' friction; infinite where no pull does.

        Coulomb friction in every joint, whose forces hold the friction of the others, too: found round by round. At a
        dead point, where a grip asks for no pull, the pins still rub under it.
        """
        return self._solved(grip_n, friction_ratio)[0]

    def grip_for_n(self, pull_n: float, friction_ratio: float) -> float:
        """Return the grip that a pull builds up against the pins' friction; infinite beyond a dead point: it locks."""
        most = self.smooth.rest_n_mm + pull_n * self.smooth.pull_mm
        if most <= 0.0:
            return 0.0
        if self.smooth.grip_mm <= 0.0:
            return math.inf if self.pull_for_n(0.0, friction_ratio) <= pull_n else 0.0
        low, high = 0.0, most / self.smooth.grip_mm
        for _ in range(40):
            middle = (low + high) / 2
            low, high = (middle, high) if self.pull_for_n(middle, friction_ratio) <= pull_n else (low, middle)
        return low

    def left_n_mm(self, friction_ratio: float) -> float:
        """Return the opening moment less the pins' friction, as if the tip were held while elastics pull."""
        opens = -self.smooth.rest_n_mm
        held = -opens / self.smooth.grip_mm if self.smooth.grip_mm > 0.0 else 0.0
        return opens - self._rubbing_n_mm(0.0, held, friction_ratio)

    def forces_n(self, pull_n: float, grip_n: float) -> tuple[Vec3, ...]:
        """Return the force in every joint of the loop, from its standing to its moving body."""
        loads: Sequence[PointLoad] = (*scaled(self.pull, pull_n), *scaled([self.grip], grip_n), *self.rest)
        numbered = [(self.bodies.get(load.copy, self.stands), load) for load in loads]
        return tuple((float(x), float(y), float(z)) for x, y, z in self._statics.under(numbered))

    def pin_forces_n(self, pull_n: float, grip_n: float, friction_ratio: float = 0.0) -> tuple[Vec3, ...]:
        """Return the force of each joint's moving body on its pin, with the friction that the pull was found with."""
        found, forces = self._solved(grip_n, friction_ratio)
        if math.isinf(found):
            forces = self._forces[0] * pull_n + self._forces[1] * grip_n + self._forces[2]
        return tuple((-float(x), -float(y), -float(z)) for x, y, z in forces)

    def _solved(self, grip_n: float, friction_ratio: float) -> tuple[float, Floats]:
        """Return the pull for a grip, and the forces in the joints under both."""
        smooth, (pull, grip, rest) = self.smooth, self._forces
        if smooth.pull_mm <= 0.0:
            return math.inf, rest
        asked = grip_n * smooth.grip_mm - smooth.rest_n_mm
        rubs = np.zeros(len(self.bearings))
        before = asked / smooth.pull_mm
        for _ in range(ROUNDS_N):
            forces = before * pull + grip_n * grip + rest + np.tensordot(rubs, self._rubbed, 1)
            across = forces - (forces * self._axes).sum(axis=1)[:, None] * self._axes
            rubs = friction_ratio * self._radii_mm * np.linalg.norm(across, axis=1)
            found = (asked + float(rubs @ self._speeds)) / smooth.pull_mm
            if abs(found - before) <= SAME_N + SAME_SHARE * abs(found):
                return max(found, 0.0), forces
            before = found
            if found > MOST_N:
                break
        return math.inf, forces

    @cached_property
    def _statics(self) -> Statics:
        """What any load does to the joints."""
        return Statics(self.bearings, self.stands)

    @cached_property
    def _forces(self) -> tuple[Floats, Floats, Floats]:
        """The forces in the joints under 1 N of pull, under 1 N at the tip, and under all else."""
        first, second, third = (
            self._statics.under([(self.bodies.get(load.copy, self.stands), load) for load in loads])
            for loads in (self.pull, [self.grip], self.rest)
        )
        return first, second, third

    @cached_property
    def _rubbed(self) -> Floats:
        """The forces in the joints under each joint's own friction of 1 N mm, or 1 N where it slides, (n, n, 3)."""
        return np.array([self._statics.rubbed(n, self.sense) for n in range(len(self.bearings))])

    @cached_property
    def _axes(self) -> Floats:
        """The axes of the joints, (n, 3)."""
        return np.array([bearing.axis for bearing in self.bearings])

    @cached_property
    def _radii_mm(self) -> Floats:
        """Where friction acts in each."""
        return np.array([bearing.radius_mm for bearing in self.bearings])

    @cached_property
    def _speeds(self) -> Floats:
        """How fast each goes for a radian of the joint that leads."""
        return np.array([abs(bearing.speed_ratio) for bearing in self.bearings])

    def _rubbing_n_mm(self, pull_n: float, grip_n: float, friction_ratio: float) -> float:
        """Return the friction of all pins under a pull and a grip that are in balance without it."""
        return rubbing_n_mm(self.bearings, self.forces_n(pull_n, grip_n), friction_ratio)
