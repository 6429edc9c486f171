"""Where all groups are at each value of one joint, others held: followed step by step where loops must be closed."""

from __future__ import annotations

from bisect import bisect, insort
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from planner.mechanism.joints.linkage import LockedError
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.places.frame import Frame

GRID = 2.0
"""States of a loop are kept at every so many degrees or mm, and others found from the nearest."""
EXACT = 0.01
Floats = NDArray[np.float64]


class JointMotion:
    """The device with one joint moving and some others held."""

    def __init__(self, mechanism: Mechanism, joint: str, held: Mapping[str, float]) -> None:
        """Bring the device to the held values; LockedError where it cannot."""
        self.linkage, self.joint, self.held = mechanism.linkage, joint, held
        start = self.linkage.solved(held) if held else np.zeros(self.linkage.tree_n)
        base = self.linkage.values_of(start)[joint]
        self._q: dict[float, Floats] = {}
        self._moves: dict[float, list[Frame]] = {}
        self.begin = base
        self._q[0.0] = start
        self._known = [0.0]

    def __call__(self, value: float) -> list[Frame]:
        """Return how far every group has moved with the joint at a value from where it began."""
        if value not in self._moves:
            self._moves[value] = self.linkage.moves(self.state(value))
        return self._moves[value]

    def values(self, value: float) -> dict[str, float]:
        """Return every joint's value."""
        return self.linkage.values_of(self.state(value))

    def end(self, far: float) -> tuple[float, bool]:
        """Return how far the linkage itself goes toward a value, and whether it locks before."""
        if not self.linkage.loops:
            return far, False
        sense = 1.0 if far > 0 else -1.0
        free = 0.0
        while sense * (far - free) > 1e-9:
            ahead = free + sense * min(GRID, sense * (far - free))
            try:
                self.state(ahead)
            except LockedError:
                return self._locked(free, ahead), True
            free = ahead
        return far, False

    def state(self, value: float) -> Floats:
        """Return the tree's joints at a value, from the nearest state known on the way to it.

        Never from one beyond: where a chain turns back, at a dead point, that way leads into its other form.
        """
        asked = {**self.held, self.joint: self.begin + value}
        if not self.linkage.loops:
            return self.linkage.solved(asked, self._q[0.0])
        if value not in self._q:
            after = bisect(self._known, value)
            near = self._known[after - 1 if value > 0.0 else after]
            self._q[value] = self.linkage.solved(asked, self._q[near], self._ahead(near, value))
            insort(self._known, value)
        return self._q[value]

    def _ahead(self, near: float, value: float) -> Floats | None:
        """Return how the tree's joints ought to change on from a known state, as they did on the way to it."""
        at, sense = self._known.index(near), 1 if value > near else -1
        if not 0 <= at - sense < len(self._known):
            return None
        before = self._known[at - sense]
        found: Floats = (self._q[near] - self._q[before]) * (value - near) / (near - before)
        return found

    def _locked(self, free: float, met: float) -> float:
        """Halve a span of values in which the linkage locks."""
        while abs(met - free) > EXACT:
            middle = (free + met) / 2
            try:
                self.state(middle)
                free = middle
            except LockedError:
                met = middle
        return free
