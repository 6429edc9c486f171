"""Moves between beds by separation, on two threads: one bed fewer, or a last bed with less on it."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor

from planner.packing.layout.packed_unit import Layout
from planner.packing.search.corner_fill import Filler
from planner.packing.separation.ejection import Ejector
from planner.packing.separation.separate import Go, Separator

THREADS_N = 2
SEEDS_N = 1000
"""Seeds of a round."""
SLACK_SHARE = 0.005
"""So much of a bed's area more may lie on the last plate than at best, while the search walks on (Dueck 1993)."""
Order = Callable[[Sequence[Layout]], list[Layout]]
Worth = Callable[[Sequence[Layout]], tuple[float, float, float]]
"""Better when less."""


class Best:
    """The best plates that any thread has found."""

    def __init__(self, plates: list[Layout], worth: Worth) -> None:
        self.plates, self.worth, self.lock = plates, worth, threading.Lock()

    def offer(self, plates: list[Layout]) -> None:
        """Take plates where they are better."""
        with self.lock:
            self.plates = min(self.plates, plates, key=self.worth)


class Mover:
    """Moves the units of one search; the compiled part runs free of the interpreter's lock."""

    def __init__(
        self, filler: Filler, separator: Separator, clock: Callable[[], float], order: Order, worth: Worth
    ) -> None:
        self.filler, self.separator, self.clock, self.order, self.worth = filler, separator, clock, order, worth
        self.slack_mm2 = SLACK_SHARE * filler.ground.area

    def fewer(self, plates: Sequence[Layout], seed: int, pause_s: float) -> list[list[Layout]]:
        """Throw the pieces of the last bed onto the others and separate all; the first success ends the race."""
        return self._raced(lambda n, go: self._thrown(plates, SEEDS_N * seed + n, go), pause_s, first=True)

    def fuller(self, plates: list[Layout], seed: int, pause_s: float) -> list[Layout]:
        """Return plates after ejection moves that improved them; each thread continues from the best of both."""
        best = Best(plates, self.worth)
        if len(plates) > 1:
            self._raced(lambda n, go: self._ejected(best, SEEDS_N * seed + n, go), pause_s, first=False)
        return best.plates

    def _thrown(self, plates: Sequence[Layout], seed: int, go: Go) -> list[Layout] | None:
        """Return the units of some beds on one bed less, tried again and again."""
        while go():
            found = self.separator.apart(plates[:-1], list(plates[-1]), seed, go)
            held = [self.filler.floor_of(layout)[1] for layout in found or ()]
            if found and sum(map(len, held)) == sum(map(len, plates)):  # geometry and rules agree
                return held
            seed += THREADS_N
        return None

    def _ejected(self, best: Best, seed: int, go: Go) -> None:
        """Make moves, each upon the last one, or upon the best plates where those have become much better."""
        ejector, plates = Ejector(self.filler, self.separator, seed), best.plates
        while go() and len(plates) > 1:
            found = ejector.moved(plates, go)
            if found:
                plates = self.order(found)
                best.offer(plates)
            if not self._near(plates, best.plates):
                plates = best.plates

    def _near(self, plates: Sequence[Layout], best: Sequence[Layout]) -> bool:
        """Return whether plates are as good as the best ones or nearly so: the search may walk on from there."""
        plates_n, late, area = self.worth(plates)
        return (plates_n, late) <= self.worth(best)[:2] and area < self.worth(best)[2] + self.slack_mm2

    def _raced(
        self, work: Callable[[int, Go], list[Layout] | None] | Callable[[int, Go], None], pause_s: float, *, first: bool
    ) -> list[list[Layout]]:
        """Return what threads found until a time; where ``first`` is true, until one found something."""
        done = threading.Event()

        def run(number: int) -> list[Layout] | None:
            found = work(number, lambda: self.clock() < pause_s and not done.is_set())
            if first and found:
                done.set()
            return found

        with ThreadPoolExecutor(THREADS_N) as pool:
            return [found for found in pool.map(run, range(THREADS_N)) if found]
