"""One group on its beds: copies become units, units layouts, layouts plates."""

from __future__ import annotations

from collections.abc import Sequence

import shapely
import shapely.affinity

from planner.job import Bed, usable_ground
from planner.packing.layout.item import Item, PackedPlate
from planner.packing.layout.level_heights import levelled
from planner.packing.layout.nested_parts import nested
from planner.packing.layout.one_by_one import order_in_turn
from planner.packing.layout.outline import openings, polygon
from planner.packing.layout.packed_unit import HERE, Copy, Layout, Spot, Unit, at_spot
from planner.packing.layout.plate import Group, Placement
from planner.packing.layout.sharing_rules import Names, Rules
from planner.packing.search.bed_filling import FRONT
from planner.packing.search.corner_fill import FINE_DEG
from planner.packing.search.effort import Effort
from planner.packing.search.group_search import GroupSearch
from planner.packing.search.lone_parts import alone_shape

TOO_LARGE = "it does not fit this bed at any turn"


class GroupPacker:
    """The work on one group; ``unplaced`` and ``broken`` are known once it has packed."""

    def __init__(
        self, items: Sequence[Item], group: Group, bed: Bed, spacing_mm: float, seed: int, rules: Rules
    ) -> None:
        self.items = {item.part: item for item in sorted(items, key=lambda i: (i.order, i.part))}
        self.group, self.bed, self.spacing_mm, self.seed, self.rules = group, bed, spacing_mm, seed, rules
        self.ground = usable_ground(bed)
        self.shapes: dict[str, shapely.Polygon] = {}
        self.alone: dict[str, Spot] = {}
        self.unplaced: list[tuple[str, int, str]] = []
        self.broken: list[Names] = []

    def packed(self, effort: Effort) -> list[PackedPlate]:
        """Return the best plates found with some effort."""
        units = self._units()
        if not units:
            return []
        units = self._with_sound_bundles(units)
        search = self._search(units)
        best, inside = search.first(), self._nested(units)
        if len(best) > 1 and len(inside) < len(units):
            other = self._search(inside)
            found = other.first()
            if len(found) >= len(best) > search.bound:
                half = effort.part(0.5)
                best = search.better(best, half)
                effort.spend(half.spent_s)
            if len(found) >= len(best) > other.bound:
                found = other.better(found, effort)
            if len(found) < len(best):  # openings are used only where that saves a plate
                best, units, search = found, inside, other
        found = search.better(best, effort)
        if len(found) > 1 and self.rules.in_turn is None:  # in turn, a plate's height frees no printer sooner
            heights = {part: item.height_mm for part, item in self.items.items()}
            found = levelled(search.filler, found, heights, search.worth)
        return [self._plate(units, layout) for layout in found]

    def _units(self) -> list[Unit]:
        """Return every copy that fits the bed as a unit; the others are unplaced."""
        units = []
        for item in self.items.values():
            self.shapes[item.part], spot = alone_shape(item, self.bed, self.ground)
            copies = [(item.part, copy) for copy in range(1, item.copies + 1)]
            if spot is None:
                self.unplaced += [(part, copy, TOO_LARGE) for part, copy in copies]
                continue
            self.alone[item.part] = spot
            bundle = self.rules.bundle_of(item.part)
            units += [self._unit(copy, item.order, bundle) for copy in copies]
        return units

    def _unit(self, copy: Copy, order: int, bundle: int | None) -> Unit:
        """Return one copy as a unit."""
        return Unit(copies=((copy, HERE),), shape=self.shapes[copy[0]], kind=copy[0], order=order, bundle=bundle)

    def _with_sound_bundles(self, units: list[Unit]) -> list[Unit]:
        """Return units with bundles that one bed holds; one that it does not is named and untied."""
        for bundle in sorted({unit.bundle for unit in units if unit.bundle is not None}):
            mine = [unit for unit in units if unit.bundle == bundle]
            filler = self._search(mine).filler
            order = sorted(range(len(mine)), key=lambda k: -mine[k].area_mm2)
            plates, _ = filler.beds(order, turns_n=len(FINE_DEG), score=FRONT)
            if len(plates) != 1:
                self.broken.append(self.rules.together[bundle])
                units = [self._unit(u.copies[0][0], u.order, None) if u.bundle == bundle else u for u in units]
        return units

    def _nested(self, units: list[Unit]) -> list[Unit]:
        """Return units with small parts in the openings of others, where the group and the parts allow it."""
        free = {part: item for part, item in self.items.items() if not self.rules.binds(part)}
        guests = frozenset(part for part, item in free.items() if item.in_opening)
        holes = {part: openings(polygon(item.rings)) for part, item in free.items() if self._opens(item)}
        return nested(units, holes, guests, self.spacing_mm) if guests and holes and not self.group.brim_mm else units

    def _opens(self, item: Item) -> bool:
        """Return whether an outline has openings, none of them taken by a zone."""
        return len(item.rings) > 1 and not self.shapes[item.part].interiors

    def _search(self, units: Sequence[Unit]) -> GroupSearch:
        """Return the search over units on this bed."""
        return GroupSearch(
            units, self.ground, apart_mm=self.spacing_mm, rules=self.rules, seed=self.seed, alone=self.alone
        )

    def _plate(self, units: Sequence[Unit], layout: Layout) -> PackedPlate:
        """Return a finished plate, its pieces in the middle of the bed where that is free."""
        shift = self._to_middle([at_spot(units[k].shape, spot) for k, spot in layout.items()])
        placements = [
            self._placement(copy, shift.after(spot.after(inner)))
            for k, spot in sorted(layout.items())
            for copy, inner in units[k].copies
        ]
        area = sum(polygon(self.items[p.part].rings).area for p in placements)
        if self.rules.in_turn is not None:
            placements = list(order_in_turn(placements, {part: item.height_mm for part, item in self.items.items()}))
        return PackedPlate(group=self.group, placements=tuple(placements), fill=float(area / self.ground.area))

    def _to_middle(self, shapes: Sequence[shapely.Polygon]) -> Spot:
        """Return the shift that brings shapes to the bed's middle, which is heated and levelled best; else none.

        Common practice, no source.
        """
        a, b, c, d = shapely.total_bounds(shapes)
        x0, y0, x1, y1 = self.ground.bounds
        shift = Spot(turn_deg=0.0, shift_mm=(float(x0 + x1 - a - c) / 2, float(y0 + y1 - b - d) / 2))
        return shift if all(self.ground.covers(at_spot(shape, shift)) for shape in shapes) else HERE

    def _placement(self, copy: Copy, spot: Spot) -> Placement:
        """Return a placement from a spot."""
        turned = shapely.affinity.rotate(polygon(self.items[copy[0]].rings), spot.turn_deg, origin=(0.0, 0.0))
        x0, y0, x1, y1 = turned.bounds
        return Placement(
            part=copy[0],
            copy=copy[1],
            x_mm=(x0 + x1) / 2 + spot.shift_mm[0],
            y_mm=(y0 + y1) / 2 + spot.shift_mm[1],
            turn_deg=spot.turn_deg % 360.0,
        )
