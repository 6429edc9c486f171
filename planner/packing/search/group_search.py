"""The search over one group: a first answer at once, then fewer and fuller plates while there is effort left."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cached_property

import shapely

from planner.packing.layout.packed_unit import Layout, Spot, Unit
from planner.packing.layout.sharing_rules import Rules
from planner.packing.search.bed_filling import SCORES
from planner.packing.search.boxes import boxed
from planner.packing.search.corner_fill import COARSE_N, FINE_DEG, Filler
from planner.packing.search.effort import Effort
from planner.packing.search.one_a_bed import one_a_bed_n
from planner.packing.search.refill import Refiller
from planner.packing.separation.mover import Mover
from planner.packing.separation.separate import Separator

BOXES_MOST = 150
"""Second box layouts are tried for no more units than this: the library takes seconds for more."""
REFILL_SHARE, FEWER_SHARE, FULLER_SHARE = 0.15, 0.25, 0.4
"""Of the effort left in a round, for beds filled anew, for a bed less, and for an emptier last bed."""
HOPELESS_SHARE = 0.92
"""No bed is taken away where outlines would take more of the others: records of strips are at 0.90 to 0.92."""
FULL_LEAST, IRREGULAR_SHARE = 3, 0.9
"""Where there cannot be fewer than so many plates, effort goes into fuller ones if the outlines take no more than this
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
        """The least number of beds: by the rules about who shares one, by area, and by units too large for two.

        Outlines grown by half the spacing never overlap or leave the grown bed.
        """
        by_area = -int(-(sum(self.grown_mm2) / self.room_mm2 - 1e-9) // 1)
        return max(by_area, self.one_a_bed_n, self.rules.beds_least(self.units))

    @cached_property
    def one_a_bed_n(self) -> int:
        """How many of the units are so large that no two of them share a bed."""
        return one_a_bed_n([unit.shape for unit in self.units], self.ground, self.apart_mm)

    def worth(self, plates: Sequence[Layout]) -> tuple[float, float, float]:
        """Return what is better when less: plates, then early risks on late plates, then the area on the last."""
        late = sum(number * (self.late - self.units[k].order) for number, plate in enumerate(plates) for k in plate)
        return len(plates), late, self._area(plates[-1])

    def first(self) -> list[Layout]:
        """Return a valid answer at once."""
        return self.settled(min(self._first_ones(), key=self.worth))

    def better(self, plates: list[Layout], effort: Effort) -> list[Layout]:
        """Return the best answer that is found with some effort.

        While there may be fewer plates, rounds of several searches look for them; where areas say no, and there are
        three or more of irregular outlines, the effort goes into an emptier last one.
        """
        self.filler = self.filler.spending(effort)
        refiller, mover = Refiller(self.filler, self.seed), self._mover()
        for seed in range(self.seed, self.seed + 1000):
            hope = self._may_be_fewer(plates)
            if len(plates) == 1 or not effort.goes_on or not (hope or self._worth_filling(plates)):
                return plates
            share = 1.0 if self.rules.together else REFILL_SHARE
            rest, pause_s = plates, effort.spent_s + (share * effort.left_s if hope else 0.0)
            while effort.spent_s < pause_s and len(rest) >= len(plates):
                rest = refiller.changed(rest)
            plates = min(plates, self.settled(rest), key=self.worth)
            if not self.rules.together:
                plates = self._moved(mover, plates, seed, effort)
        return plates

    def _moved(self, mover: Mover, plates: list[Layout], seed: int, effort: Effort) -> list[Layout]:
        """Remove beds while that succeeds, then make the last plate emptier, each for a share of the effort."""
        fewer = effort.part(FEWER_SHARE)
        while self._may_be_fewer(plates) and fewer.goes_on:
            found = mover.fewer(sorted(plates, key=lambda plate: -self._area(plate)), seed, fewer)
            if not found:
                break
            plates = min(plates, *map(self.settled, found), key=self.worth)
        effort.spend(fewer.spent_s)
        fuller = effort.part(FULLER_SHARE if self._may_be_fewer(plates) else 1.0)
        plates = mover.fuller(plates, seed, fuller)
        effort.spend(fuller.spent_s)
        return plates

    def _may_be_fewer(self, plates: Sequence[Layout]) -> bool:
        """Return whether areas leave hope for a plate less: grown outlines would take no more than is ever reached."""
        return len(plates) > self.bound and self._load(len(plates) - 1) < HOPELESS_SHARE

    def _worth_filling(self, plates: Sequence[Layout]) -> bool:
        """Return whether time may well go into fuller plates where there cannot be fewer."""
        if len(plates) < FULL_LEAST or self.rules.together:
            return False
        boxes = sum(float(shapely.minimum_rotated_rectangle(unit.shape).area) for unit in self.units)
        return sum(unit.area_mm2 for unit in self.units) < IRREGULAR_SHARE * boxes

    def _mover(self) -> Mover:
        """Return what moves units between beds by this search's measure."""
        return Mover(self.filler, self.separator, self._sorted, self.worth)

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
