"""Clocks for searches under test: seconds of computing, so that a busy machine does not matter, and mere counts."""

from __future__ import annotations

import itertools
import time

from planner.packing.search.effort import SearchClock


class Computed(SearchClock):
    """Seconds that this process has computed, on all its threads."""

    def __call__(self) -> float:
        """Return them."""
        return time.process_time()


class Ticks(SearchClock):
    """A clock that counts how often it is asked."""

    def __init__(self) -> None:
        super().__init__()
        self.ticks = itertools.count()

    def __call__(self) -> float:
        """Return the number of the question."""
        return float(next(self.ticks))
