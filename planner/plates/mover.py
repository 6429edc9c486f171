"""Moves between beds by separation, on two threads: a bed less, or a last bed with less on it."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor

from planner.plates.corner_fill import Filler
from planner.plates.ejection import Ejector
from planner.plates.separate import Go, Separator
from planner.plates.unit import Layout

THREADS_N = 2
SEEDS_N = 1000
"""Seeds of a round."""
SLACK_SHARE = 0.005
"""So much of a bed's area more may lie on the last plate than at best, while the search walks on (Dueck 1993)."""
Order = Callable[[Sequence[Layout]], list[Layout]]
Worth = Callable[[Sequence[Layout]], tuple[float, float, float]]
"""Better when less."""


class Mover:
    """Moves the units of one search; the compiled part runs free of the interpreter's lock."""

    def __init__(
        self, filler: Filler, separator: Separator, clock: Callable[[], float], order: Order, worth: Worth
    ) -> None:
        self.filler, self.separator, self.clock, self.order, self.worth = filler, separator, clock, order, worth
        self.slack_mm2 = SLACK_SHARE * filler.ground.area

    def fewer(self, plates: Sequence[Layout], seed: int, pause: float) -> list[list[Layout]]:
        """Throw what lies on the last bed onto the others and separate it all; the first success ends the race."""
        return self._raced(lambda n, go: self._thrown(plates, SEEDS_N * seed + n, go), pause, first=True)

    def fuller(self, plates: list[Layout], seed: int, pause: float) -> list[list[Layout]]:
        """Return plates after ejection moves that made them better, one answer a thread."""
        if len(plates) == 1:
            return []
        return self._raced(lambda n, go: self._ejected(plates, SEEDS_N * seed + n, go), pause, first=False)

    def _thrown(self, plates: Sequence[Layout], seed: int, go: Go) -> list[Layout] | None:
        """Return the units of some beds on one bed less, tried again and again."""
        while go():
            found = self.separator.apart(plates[:-1], list(plates[-1]), seed, go)
            held = [self.filler.floor_of(layout)[1] for layout in found or ()]
            if found and sum(map(len, held)) == sum(map(len, plates)):  # geometry and rules agree
                return held
            seed += THREADS_N
        return None

    def _ejected(self, plates: list[Layout], seed: int, go: Go) -> list[Layout]:
        """Return plates after all moves that made them better."""
        ejector, best = Ejector(self.filler, self.separator, seed), plates
        while go() and len(plates) > 1:
            found = ejector.moved(plates, go)
            if not found:
                continue
            found = self.order(found)
            if self._near(found, best):
                plates = found
            best = min(best, found, key=self.worth)
        return best

    def _near(self, plates: Sequence[Layout], best: Sequence[Layout]) -> bool:
        """Return whether plates are as good as the best ones or nearly so: the search may walk on from there."""
        plates_n, late, area = self.worth(plates)
        return (plates_n, late) <= self.worth(best)[:2] and area < self.worth(best)[2] + self.slack_mm2

    def _raced(
        self, work: Callable[[int, Go], list[Layout] | None], pause: float, *, first: bool
    ) -> list[list[Layout]]:
        """Return what threads found until a time; where ``first`` is true, until one found something."""
        done = threading.Event()

        def run(number: int) -> list[Layout] | None:
            found = work(number, lambda: self.clock() < pause and not done.is_set())
            if first and found:
                done.set()
            return found

        with ThreadPoolExecutor(THREADS_N) as pool:
            return [found for found in pool.map(run, range(THREADS_N)) if found]
