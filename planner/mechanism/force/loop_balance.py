"""Pull for a grip and grip for a pull through a closed loop, with the friction of all its pins."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.finding import Vec3
from planner.mechanism.cord.vectors import times
from planner.mechanism.force.balance import Balance
from planner.mechanism.force.point_load import PointLoad, scaled
from planner.mechanism.force.reactions import Bearing, reactions_n, rubbing_n_mm


@dataclass(frozen=True, slots=True, kw_only=True)
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

    def pull_for_n(self, grip_n: float, friction_ratio: float) -> float:
        """Return the pull that builds up a grip against the pins' friction; infinite where no pull does.

        Forces in the pins grow with the pull: of each pull they take the share that they would take without friction,
        so that P = P0 / (1 - M / (P0 a)), where M is their friction under P0 and a the arm of the pull.
        """
        base = self.smooth.pull_for_n(grip_n, 0.0)
        if base <= 0.0 or math.isinf(base):
            return base
        share = self._rubbing_n_mm(base, grip_n, friction_ratio) / (base * self.smooth.pull_mm)
        return base / (1.0 - share) if share < 1.0 else math.inf

    def grip_for_n(self, pull_n: float, friction_ratio: float) -> float:
        """Return the grip that a pull builds up: of each grip the pins take a share, as in :meth:`pull_for_n`."""
        most = self.smooth.rest_n_mm + pull_n * self.smooth.pull_mm
        if most <= 0.0 or self.smooth.grip_mm <= 0.0:
            return 0.0
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
        return reactions_n(self.bearings, numbered, self.stands)

    def pin_forces_n(self, pull_n: float, grip_n: float) -> tuple[Vec3, ...]:
        """Return the force of each joint's moving body on its pin; with friction they grow as the pull does."""
        base = self.smooth.pull_for_n(grip_n, 0.0)
        ratio = pull_n / base if base > 0.0 else 1.0
        return tuple(times(force, -ratio) for force in self.forces_n(base, grip_n))

    def _rubbing_n_mm(self, pull_n: float, grip_n: float, friction_ratio: float) -> float:
        """Return the friction of all pins under a pull and a grip that are in balance without it."""
        return rubbing_n_mm(self.bearings, self.forces_n(pull_n, grip_n), friction_ratio)
