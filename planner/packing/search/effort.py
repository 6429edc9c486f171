"""The effort of a search: work is counted, never timed, so that the same search ends at the same place everywhere.

It is told in seconds of a usual desk computer, so that limits can be thought of as times.
"""

from __future__ import annotations

import math

STEP_S = 7e-9
"""One step of the compiled separation: a corner that is turned, a pair of outlines or of circles that is compared."""
FLOOR_S, LAID_S, TURN_S, DRAW_S = 7e-4, 3e-4, 6e-5, 1e-3
"""A bed begun, a shape laid on it, a turn of a shape looked for, a move drawn: measured as processor time on a computer
of 2026 with two cores, over five sets of pieces."""


class Effort:
    """What a search has spent, and the most that it may spend; both in seconds of effort."""

    def __init__(self, most_s: float = math.inf) -> None:
        self.spent_s, self.most_s = 0.0, most_s

    def spend(self, effort_s: float) -> None:
        """Count work that was done."""
        self.spent_s += effort_s

    @property
    def goes_on(self) -> bool:
        """Whether the search may go on."""
        return self.spent_s < self.most_s

    @property
    def left_s(self) -> float:
        """What may still be spent."""
        return self.most_s - self.spent_s

    def part(self, share: float) -> Effort:
        """Return an effort that ends where this one has spent a share of what is left."""
        return Effort(share * self.left_s)
