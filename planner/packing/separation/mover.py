"""Moves between beds by separation, on two threads: one bed fewer, or a last bed with less on it.

Threads meet after the same effort each, and the best of both goes on: so it does not matter which of them is faster.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor

from planner.packing.layout.packed_unit import Layout
from planner.packing.search.corner_fill import Filler
from planner.packing.search.effort import Effort
from planner.packing.separation.ejection import Ejector
from planner.packing.separation.separate import Separator

THREADS_N = 2
"""Whatever the number of cores: it decides what is found."""
SEEDS_N = 1000
"""Seeds of a round."""
MEET_S = 0.25
"""Effort after which threads meet."""
SLACK_SHARE = 0.005
"""So much of a bed's area more may lie on the last plate than at best, while the search walks on (Dueck 1993)."""
Order = Callable[[Sequence[Layout]], list[Layout]]
Worth = Callable[[Sequence[Layout]], tuple[float, float, float]]
"""Better when less."""
Walk = tuple[list[Layout], list[Layout]]
"""Where a walk has come to, and the best plates on its way."""


class Mover:
    """Moves the units of one search; the compiled part runs free of the interpreter's lock."""

    def __init__(self, filler: Filler, separator: Separator, order: Order, worth: Worth) -> None:
        self.filler, self.separator, self.order, self.worth = filler, separator, order, worth
        self.slack_mm2 = SLACK_SHARE * filler.ground.area

    def fewer(self, plates: Sequence[Layout], seed: int, effort: Effort) -> list[list[Layout]]:
        """Throw the pieces of the last bed onto the others and separate all; the first tries that succeed end it."""
        with ThreadPoolExecutor(THREADS_N) as pool:
            for first in range(0, SEEDS_N, THREADS_N):
                if not effort.goes_on:
                    break
                spent = [Effort(effort.left_s) for _ in range(THREADS_N)]
                seeds = [SEEDS_N * seed + first + n for n in range(THREADS_N)]
                found = [each for each in pool.map(self._thrown, [plates] * THREADS_N, seeds, spent) if each]
                effort.spend(max(one.spent_s for one in spent))
                if found:
                    return found
        return []

    def fuller(self, plates: list[Layout], seed: int, effort: Effort) -> list[Layout]:
        """Return plates after ejection moves that improved them; each thread continues from the best of both."""
        best, walks = plates, [plates] * THREADS_N
        ejectors = [Ejector(self.filler, self.separator, SEEDS_N * seed + n) for n in range(THREADS_N)]
        with ThreadPoolExecutor(THREADS_N) as pool:
            while effort.goes_on and len(best) > 1:
                spent = [Effort(min(MEET_S, effort.left_s)) for _ in range(THREADS_N)]
                ended = list(pool.map(self._ejected, ejectors, walks, [best] * THREADS_N, spent))
                effort.spend(max(one.spent_s for one in spent))
                best = min(best, *(found for _, found in ended), key=self.worth)
                walks = [at if self._near(at, best) else best for at, _ in ended]
        return best

    def _thrown(self, plates: Sequence[Layout], seed: int, effort: Effort) -> list[Layout] | None:
        """Return the units of some beds on one bed less; None where this try finds no places."""
        found = self.separator.apart(plates[:-1], list(plates[-1]), seed, effort)
        held = [self.filler.spending(effort).floor_of(layout)[1] for layout in found or ()]
        if found and sum(map(len, held)) == sum(map(len, plates)):  # geometry and rules agree
            return held
        return None

    def _ejected(self, ejector: Ejector, plates: list[Layout], best: list[Layout], effort: Effort) -> Walk:
        """Make moves, each upon the last one, or upon the best plates where those have become much better."""
        ejector.filler = self.filler.spending(effort)
        while effort.goes_on and len(plates) > 1:
            found = ejector.moved(plates)
            if found:
                plates = self.order(found)
                best = min(best, plates, key=self.worth)
            if not self._near(plates, best):
                plates = best
        return plates, best

    def _near(self, plates: Sequence[Layout], best: Sequence[Layout]) -> bool:
        """Return whether plates are as good as the best ones or nearly so: the search may walk on from there."""
        plates_n, late, area = self.worth(plates)
        return (plates_n, late) <= self.worth(best)[:2] and area < self.worth(best)[2] + self.slack_mm2
