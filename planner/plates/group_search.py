"""The search over one group: a first answer at once, then fewer and fuller plates while there is time."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor

import shapely

from planner.plates.boxes import boxed
from planner.plates.corner_fill import COARSE_N, FINE_DEG, Filler
from planner.plates.ejection import Ejector
from planner.plates.floor import SCORES
from planner.plates.refill import Refiller
from planner.plates.rules import Rules
from planner.plates.search import grown, laid_in_strip
from planner.plates.separate import Go, Separator
from planner.plates.unit import Layout, Spot, Unit

STRIP_SHARES = ((1.4, 1.0), (1.1, 0.92), (1.25, 0.85))
"""Outlines in a strip over what a bed holds, two for each round: what lies past the bed is left for later."""
BOXES_MOST = 150
"""Second box layouts are tried for no more units than this: the library takes seconds for more."""
REFILL_SHARE, FEWER_SHARE = 0.15, 0.5
"""Of the time left, before the engine is asked again."""
THREADS_N = 2
POLISH_S = 1.5
"""Time for fuller plates where there cannot be fewer."""
Clock = Callable[[], float]


class GroupSearch:
    """Lays units on as few beds as it can find; ``rectangle`` where the ground is the whole of its box."""

    def __init__(
        self,
        units: Sequence[Unit],
        ground: shapely.Polygon,
        *,
        apart_mm: float,
        rules: Rules,
        seed: int,
        alone: Mapping[str, Spot],
    ) -> None:
        self.units, self.ground, self.apart_mm, self.rules, self.seed = units, ground, apart_mm, rules, seed
        self.filler = Filler(units, ground, apart_mm, rules)
        self.filler.alone |= alone
        self.all = sorted(range(len(units)), key=lambda k: (units[k].order, -units[k].area_mm2, units[k].copies[0][0]))
        self.by_area = sorted(self.all, key=lambda k: -units[k].area_mm2)
        self.separator = Separator(units, ground, apart_mm)
        self.rectangle = bool(abs(ground.area - shapely.box(*ground.bounds).area) < 1e-6)
        self.grown_mm2 = [float(unit.shape.buffer(apart_mm / 2, quad_segs=4).area) for unit in units]
        self.room_mm2 = float(ground.buffer(apart_mm / 2).area)
        self.late = max(unit.order for unit in units)

    @property
    def bound(self) -> int:
        """The least number of beds by area: outlines grown by half the spacing never overlap or leave the grown bed."""
        return max(1, -int(-(sum(self.grown_mm2) / self.room_mm2 - 1e-9) // 1))

    def worth(self, plates: Sequence[Layout]) -> tuple[float, float, float]:
        """Return what is better when less: plates, then early risks on late plates, then the area on the last."""
        late = sum(number * (self.late - self.units[k].order) for number, plate in enumerate(plates) for k in plate)
        return len(plates), late, self._area(plates[-1])

    def first(self) -> list[Layout]:
        """Return a valid answer at once."""
        return self.settled(min(self._first_ones(), key=self.worth))

    def better(self, plates: list[Layout], until: float, clock: Clock = time.monotonic) -> list[Layout]:
        """Return the best answer that is found by a time of the clock."""
        refiller = Refiller(self.filler, self.seed)
        for seed in range(self.seed, self.seed + 1000):
            left_s = until - clock()
            least = len(plates) <= self.bound
            if len(plates) == 1 or left_s <= 0 or (least and seed > self.seed):
                return plates
            rest, pause = plates, clock() + (0.0 if least else REFILL_SHARE * left_s)
            while clock() < pause and len(rest) >= len(plates):
                rest = refiller.changed(rest)
            plates = min(plates, self.settled(rest), key=self.worth)
            plates = self._fewer(plates, seed, clock() + FEWER_SHARE * (until - clock()), clock)
            pause = min(until, clock() + POLISH_S)
            plates = self._fuller(plates, seed, pause, clock)
            order = self.all if (seed - self.seed) % 2 == 0 else self.by_area
            if len(plates) > self.bound and (found := self._by_strips(order, seed, until, clock)):
                plates = min(plates, self.settled(found), key=self.worth)
        return plates

    def _fewer(self, plates: list[Layout], seed: int, pause: float, clock: Clock) -> list[Layout]:
        """Throw what lies on the emptiest bed onto the others and separate it all, while that takes beds away."""
        if self.rules.together:
            return plates
        while len(plates) > self.bound and clock() < pause:
            rows = sorted(plates, key=lambda plate: -self._area(plate))
            found = self._raced(lambda n, go, rows=rows: self._thrown(rows, 1000 * seed + n, go), pause, clock)
            if not found:
                break
            plates = min(plates, *(self.settled(each) for each in found), key=self.worth)
        return plates

    def _thrown(self, rows: Sequence[Layout], seed: int, go: Go) -> list[Layout] | None:
        """Return the units of some beds on one bed less, tried again and again."""
        while go():
            found = self.separator.apart(rows[:-1], list(rows[-1]), seed, go)
            held = [self.filler.floor_of(layout)[1] for layout in found or ()]
            if found and sum(map(len, held)) == sum(map(len, rows)):
                return held
            seed += THREADS_N
        return None

    def _fuller(self, plates: list[Layout], seed: int, pause: float, clock: Clock) -> list[Layout]:
        """Make the last plate emptier by ejection moves."""
        if self.rules.together or len(plates) == 1:
            return plates
        found = self._raced(lambda n, go: self._ejected(plates, 1000 * seed + n, go), pause, clock, first=False)
        return min(plates, *found, key=self.worth)

    def _ejected(self, plates: list[Layout], seed: int, go: Go) -> list[Layout]:
        """Return plates after all moves that made them better."""
        ejector = Ejector(self.filler, self.separator, seed)
        while go() and len(plates) > 1:
            found = ejector.moved(plates, go)
            if found:
                plates = min(plates, self._sorted(found), key=self.worth)
        return plates

    def _raced(
        self, work: Callable[[int, Go], list[Layout] | None], pause: float, clock: Clock, *, first: bool = True
    ) -> list[list[Layout]]:
        """Return what threads found until a time; where ``first`` is true, until one found something."""
        done = threading.Event()

        def run(number: int) -> list[Layout] | None:
            found = work(number, lambda: clock() < pause and not done.is_set())
            if first and found:
                done.set()
            return found

        with ThreadPoolExecutor(THREADS_N) as pool:
            return [found for found in pool.map(run, range(THREADS_N)) if found]

    def settled(self, plates: Sequence[Layout]) -> list[Layout]:
        """Return plates with what lies on emptier ones moved into the gaps of fuller ones, as far as it goes."""
        rows = sorted((dict(plate) for plate in plates), key=lambda plate: -self._area(plate))
        for number in range(len(rows) - 1):
            later = [k for plate in rows[:number:-1] for k in plate]
            floor, held = self.filler.floor_of(rows[number])
            rows[number] = self.filler.filled(floor, held, self._movable(later))
            for plate in rows[number + 1 :]:
                for k in rows[number]:
                    plate.pop(k, None)
        return self._sorted([plate for plate in rows if plate])

    def _first_ones(self) -> Iterator[list[Layout]]:
        """Yield quick answers."""
        orders = [self.all] if self.all == self.by_area else [self.all, self.by_area]
        if self.rectangle and not self.rules.together and not self.rules.apart:
            turns: list[Callable[[Unit], float]] = [lambda unit: self.filler.turns_of(unit)[0], lambda _: 0.0]
            for turn_of in turns[: 2 if len(self.units) <= BOXES_MOST else 1]:
                plates = boxed(self.units, self.by_area, self.ground.bounds, self.apart_mm, turn_of)
                yield from self._whole(plates)
        for order in orders:
            plates, _ = self.filler.beds(order, turns_n=COARSE_N, score=SCORES[0])
            yield from self._whole(plates)

    def _whole(self, plates: Sequence[Layout]) -> Iterator[list[Layout]]:
        """Yield an answer from plates: proved by geometry, what is left out laid on beds of its own."""
        rows, laid = [], set[int]()
        for plate in plates:
            _, held = self.filler.floor_of(plate)
            rows.append(self._unbroken(held))
            laid |= set(rows[-1])
        more, lost = self.filler.beds([k for k in self.all if k not in laid], turns_n=len(FINE_DEG), score=SCORES[0])
        if not lost:
            yield self._sorted([row for row in (*rows, *more) if row])

    def _by_strips(self, order: Sequence[int], seed: int, until: float, clock: Clock) -> list[Layout] | None:
        """Fill bed after bed from the front of a strip, then its gaps; None where time or the bed's shape forbids."""
        if not self.rectangle or clock() + 2.0 > until:
            return None
        left, plates = list(order), list[Layout]()
        while left:
            beds = max(1.0, sum(self.grown_mm2[k] for k in left) / self.room_mm2 / 0.8)
            seconds = (until - clock()) / beds / 1.3
            if seconds < 0.5 and plates:
                rest, lost = self.filler.beds(left, turns_n=COARSE_N, score=SCORES[0])
                return None if lost else plates + rest
            layout = self._fullest(left, seed, seconds)
            if not layout:
                return None
            plates.append(layout)
            left = [k for k in left if k not in layout]
        return plates

    def _fullest(self, left: Sequence[int], seed: int, seconds: float) -> Layout:
        """Return the fuller of two beds, from strips of different lengths laid at the same time."""
        shares = STRIP_SHARES[seed % len(STRIP_SHARES)]
        with ThreadPoolExecutor(len(shares)) as pool:
            strips = list(pool.map(lambda share: self._strip(self._chosen(left, share), seed, seconds), shares))
        layouts = []
        for strip in strips:
            floor, held = self.filler.floor_of(self._unbroken(strip))
            layouts.append(self.filler.filled(floor, held, [k for k in left if k not in held]))
        return max(layouts, key=self._area)

    def _strip(self, indices: Sequence[int], seed: int, seconds: float) -> Layout:
        """Lay units into a strip and return what ends on its first bed."""
        by = self.apart_mm / 2
        x0, y0, x1, y1 = self.ground.buffer(by, join_style="mitre").bounds
        shapes = {k: grown(self.units[k].shape, by) for k in indices}
        laid = laid_in_strip(shapes, y1 - y0, seed=seed, budget_s=max(1, int(seconds)))
        return {
            place.key: Spot(turn_deg=place.turn_deg % 360.0, shift_mm=(place.shift_mm[0] + x0, place.shift_mm[1] + y0))
            for place in sorted(laid, key=lambda each: each.far_mm)
            if place.far_mm <= x1 - x0 + 1e-6
        }

    def _chosen(self, left: Sequence[int], share: float) -> list[int]:
        """Return the first units whose grown outlines take a share of a bed, at least."""
        total, chosen = 0.0, []
        for k in left:
            total += self.grown_mm2[k]
            chosen.append(k)
            if total > share * self.room_mm2:
                break
        return chosen

    def _unbroken(self, layout: Layout) -> Layout:
        """Return a bed's layout without the units whose bundle is not all on it."""
        missing = {self.units[k].bundle for k in self.all if k not in layout} - {None}
        return {k: spot for k, spot in layout.items() if self.units[k].bundle not in missing}

    def _movable(self, later: Sequence[int]) -> list[int]:
        """Return units of later plates to be moved, early risks first and large ones first; bundles stay."""
        return sorted(
            (k for k in later if self.units[k].bundle is None),
            key=lambda k: (self.units[k].order, -self.units[k].area_mm2, self.units[k].copies[0][0]),
        )

    def _area(self, plate: Layout) -> float:
        """Return the units' area on a plate."""
        return sum(self.units[k].area_mm2 for k in plate)

    def _sorted(self, plates: Sequence[Layout]) -> list[Layout]:
        """Return plates, early risks first, then the fullest."""

        def rank(plate: Layout) -> tuple[float, float, float]:
            orders = [self.units[k].order for k in plate]
            return min(orders), round(sum(orders) / len(orders), 3), -self._area(plate)

        return sorted((dict(plate) for plate in plates), key=rank)
