"""The search over one group: a first answer at once, then fewer and fuller plates while there is time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor

import shapely

from planner.packing.layout.packed_unit import Layout, Spot, Unit
from planner.packing.layout.sharing_rules import Rules
from planner.packing.search.bed_filling import SCORES
from planner.packing.search.boxes import boxed
from planner.packing.search.corner_fill import COARSE_N, FINE_DEG, Filler
from planner.packing.search.effort import SearchClock
from planner.packing.search.refill import Refiller
from planner.packing.search.strip import grown, laid_in_strip
from planner.packing.separation.mover import Mover
from planner.packing.separation.separate import Separator, compiled

STRIP_SHARES = ((1.4, 1.0), (1.1, 0.92), (1.25, 0.85))
"""Outlines in a strip over what a bed holds, two for each round: what lies past the bed is left for later."""
BOXES_MOST = 150
"""Second box layouts are tried for no more units than this: the library takes seconds for more."""
REFILL_SHARE, FEWER_SHARE, FULLER_SHARE = 0.15, 0.25, 0.4
"""Of the time left in a round, for beds filled anew, for a bed less, and for an emptier last bed."""
HOPELESS_SHARE = 0.92
"""No bed is taken away where outlines would take more of the others: records of strips are at 0.90 to 0.92."""
FULL_LEAST, IRREGULAR_SHARE = 3, 0.9
"""Where there cannot be fewer than so many plates, time goes into fuller ones if the outlines take no more than this
share of their least boxes; of two plates the last may be as full as it is, and boxes are laid well at once."""


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
        self.grown_mm2 = self.separator.grown_mm2
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

    def better(self, plates: list[Layout], until_s: float, clock: SearchClock) -> list[Layout]:
        """Return the best answer that is found by a time of the clock.

        While there may be fewer plates, rounds of several searches look for them; where areas say no, and there are
        three or more of irregular outlines, the time goes into an emptier last one.
        """
        refiller, mover = Refiller(self.filler, self.seed), self._mover(clock)
        for seed in range(self.seed, self.seed + 1000):
            left_s, before, hope = until_s - clock(), self.worth(plates), self._may_be_fewer(plates)
            if len(plates) == 1 or left_s <= 0 or not (hope or self._worth_filling(plates)):
                return plates
            rest, pause_s = plates, clock() + (REFILL_SHARE * left_s if hope else 0.0)
            while clock() < pause_s and len(rest) >= len(plates):
                rest = refiller.changed(rest)
            plates = min(plates, self.settled(rest), key=self.worth)
            if not self.rules.together:
                with clock.stopped():
                    compiled()
                plates = self._moved(mover, plates, seed, until_s, clock)
            order = self.all if (seed - self.seed) % 2 == 0 else self.by_area
            if hope and self.worth(plates) == before and (found := self._by_strips(order, seed, until_s, clock)):
                plates = min(plates, self.settled(found), key=self.worth)
        return plates

    def _moved(self, mover: Mover, plates: list[Layout], seed: int, until_s: float, clock: SearchClock) -> list[Layout]:
        """Remove beds while that succeeds, then make the last plate emptier, each for a share of the time."""
        pause_s = clock() + FEWER_SHARE * (until_s - clock())
        while self._may_be_fewer(plates) and clock() < pause_s:
            found = mover.fewer(sorted(plates, key=lambda plate: -self._area(plate)), seed, pause_s)
            if not found:
                break
            plates = min(plates, *map(self.settled, found), key=self.worth)
        share = FULLER_SHARE if self._may_be_fewer(plates) else 1.0
        pause_s = clock() + share * (until_s - clock())
        return mover.fuller(plates, seed, pause_s)

    def _may_be_fewer(self, plates: Sequence[Layout]) -> bool:
        """Return whether areas leave hope for a plate less: grown outlines would take no more than is ever reached."""
        return len(plates) > self.bound and self._load(len(plates) - 1) < HOPELESS_SHARE

    def _worth_filling(self, plates: Sequence[Layout]) -> bool:
        """Return whether time may well go into fuller plates where there cannot be fewer."""
        if len(plates) < FULL_LEAST or self.rules.together:
            return False
        boxes = sum(float(shapely.minimum_rotated_rectangle(unit.shape).area) for unit in self.units)
        return sum(unit.area_mm2 for unit in self.units) < IRREGULAR_SHARE * boxes

    def _mover(self, clock: SearchClock) -> Mover:
        """Return what moves units between beds by this search's measure."""
        return Mover(self.filler, self.separator, clock, self._sorted, self.worth)

    def _load(self, beds_n: int) -> float:
        """Return the share of so many beds that grown outlines take."""
        return sum(self.grown_mm2) / (beds_n * self.room_mm2)

    def settled(self, plates: Sequence[Layout]) -> list[Layout]:
        """Return plates with pieces moved from emptier ones into the gaps of fuller ones, as many as fit."""
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
        """Yield an answer from plates: proved by geometry, with the pieces left out laid on beds of their own."""
        rows, laid = [], set[int]()
        for plate in plates:
            _, held = self.filler.floor_of(plate)
            rows.append(self._unbroken(held))
            laid |= set(rows[-1])
        more, lost = self.filler.beds([k for k in self.all if k not in laid], turns_n=len(FINE_DEG), score=SCORES[0])
        if not lost:
            yield self._sorted([row for row in (*rows, *more) if row])

    def _by_strips(self, order: Sequence[int], seed: int, until_s: float, clock: SearchClock) -> list[Layout] | None:
        """Fill bed after bed from the front of a strip, then its gaps; None where time or the bed's shape forbids."""
        if not self.rectangle or clock() + 2.0 > until_s:
            return None
        left, plates = list(order), list[Layout]()
        while left:
            beds = max(1.0, sum(self.grown_mm2[k] for k in left) / self.room_mm2 / 0.8)
            budget_s = (until_s - clock()) / beds / 1.3
            if budget_s < 0.5 and plates:
                rest, lost = self.filler.beds(left, turns_n=COARSE_N, score=SCORES[0])
                return None if lost else plates + rest
            layout = self._fullest(left, seed, budget_s)
            if not layout:
                return None
            plates.append(layout)
            left = [k for k in left if k not in layout]
        return plates

    def _fullest(self, left: Sequence[int], seed: int, budget_s: float) -> Layout:
        """Return the fuller of two beds, from strips of different lengths laid at the same time."""
        shares = STRIP_SHARES[seed % len(STRIP_SHARES)]
        with ThreadPoolExecutor(len(shares)) as pool:
            strips = list(pool.map(lambda share: self._strip(self._chosen(left, share), seed, budget_s), shares))
        layouts = []
        for strip in strips:
            floor, held = self.filler.floor_of(self._unbroken(strip))
            layouts.append(self.filler.filled(floor, held, [k for k in left if k not in held]))
        return max(layouts, key=self._area)

    def _strip(self, indices: Sequence[int], seed: int, budget_s: float) -> Layout:
        """Lay units into a strip and return what ends on its first bed."""
        by = self.apart_mm / 2
        x0, y0, x1, y1 = self.ground.buffer(by, join_style="mitre").bounds
        shapes = {k: grown(self.units[k].shape, by) for k in indices}
        laid = laid_in_strip(shapes, y1 - y0, seed=seed, budget_s=max(1, int(budget_s)))
        return {
            place.key: Spot(turn_deg=place.turn_deg % 360.0, shift_mm=(place.shift_mm[0] + x0, place.shift_mm[1] + y0))
            for place in sorted(laid, key=lambda each: each.far_mm)
            if place.far_mm <= x1 - x0 + 1e-6
        }

    def _chosen(self, left: Sequence[int], share: float) -> list[int]:
        """Return the first units whose grown outlines cover at least a share of a bed."""
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
