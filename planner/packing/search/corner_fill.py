"""Fill beds unit by unit: whole layouts at once, and the gaps that another search left."""

from __future__ import annotations

import copy
from collections.abc import Iterable, Sequence

import numpy as np
import shapely

from planner.packing.layout.packed_unit import Layout, Spot, Unit, at_spot
from planner.packing.layout.sharing_rules import Rules
from planner.packing.search.bed_filling import FRONT, Floor, Score, Shapes, cell_mm
from planner.packing.search.effort import FLOOR_S, LAID_S, TURN_S, Effort

FINE_DEG = (0.0, 90.0, 180.0, 270.0, 45.0, 135.0, 225.0, 315.0, 22.5, 67.5, 112.5, 157.5, 202.5, 247.5, 292.5, 337.5)
COARSE_N = 4
"""The first turns of the list are tried in a first answer."""


class Filler:
    """Fills beds of one kind with units; keeps the shapes' cells between fillings."""

    def __init__(self, units: Sequence[Unit], ground: shapely.Polygon, apart_mm: float, rules: Rules) -> None:
        self.units, self.ground, self.apart_mm, self.rules = units, ground, apart_mm, rules
        self.effort = Effort()
        self.shapes = Shapes(cell_mm(ground))
        self.turns: dict[str, tuple[float, ...]] = {}
        self.alone: dict[str, Spot] = {}
        """Where a unit lies alone on a bed that it fills to a hair, by kind; the raster may miss that."""

    def spending(self, effort: Effort) -> Filler:
        """Return the same filler, whose work counts to another effort: that of one thread."""
        other = copy.copy(self)
        other.effort = effort
        return other

    def empty_floor(self) -> Floor:
        """Return an empty bed."""
        self.effort.spend(FLOOR_S)
        return Floor(self.ground, self.apart_mm, self.shapes)

    def floor_of(self, layout: Layout) -> tuple[Floor, Layout]:
        """Return a bed with a layout on it, and the layout without the units that turn out to lie too close."""
        floor, held = self.empty_floor(), Layout()
        self.effort.spend(LAID_S * len(layout))
        for index, spot in layout.items():
            shape = at_spot(self.units[index].shape, spot)
            if self.rules.allow((self.units[k] for k in held), self.units[index]) and floor.allows(shape):
                floor.lay(shape)
                held[index] = spot
        return floor, held

    def filled(
        self, floor: Floor, laid: Layout, indices: Iterable[int], *, turns_n: int = len(FINE_DEG), score: Score = FRONT
    ) -> Layout:
        """Lay what finds a place of some units, in order, and return the bed's layout with them."""
        layout, full = dict(laid), set[str]()
        for bundle in self.rules.bundled(self.units, indices):
            if any(self.units[index].kind in full for index in bundle):
                continue
            was = floor.snapshot() if len(bundle) > 1 else None
            found = self._laid(floor, layout, bundle, turns_n, score)
            if found is not None:
                layout |= found
            elif was is not None:
                floor.restore(was)
            else:
                full.add(self.units[bundle[0]].kind)
        return layout

    def beds(self, indices: Sequence[int], *, turns_n: int, score: Score) -> tuple[list[Layout], list[int]]:
        """Fill bed after bed in the order given; return the layouts, and units that found no place on an empty bed."""
        left, plates = list(indices), list[Layout]()
        while left:
            floor = self.empty_floor()
            layout = self.filled(floor, {}, left, turns_n=turns_n, score=score)
            if not layout:
                k = next((k for k in left if self.units[k].kind in self.alone and self.units[k].bundle is None), None)
                if k is None:
                    return plates, left
                layout = {k: self.alone[self.units[k].kind]}
            plates.append(layout)
            left = [index for index in left if index not in layout]
        return plates, []

    def _laid(self, floor: Floor, laid: Layout, bundle: Sequence[int], turns_n: int, score: Score) -> Layout | None:
        """Lay units that belong together; None where one finds no place."""
        found: Layout = {}
        for index in bundle:
            unit = self.units[index]
            if not self.rules.allow((self.units[k] for k in (*laid, *found)), unit):
                return None
            spot = floor.place(unit.kind, unit.shape, self.turns_of(unit)[:turns_n], score)
            self.effort.spend(TURN_S * turns_n + (0.0 if spot is None else LAID_S))
            if spot is None:
                return None
            found[index] = spot
        return found

    def turns_of(self, unit: Unit) -> tuple[float, ...]:
        """Return the turns to try, first those that lay its least box along the bed's edges."""
        if unit.kind not in self.turns:
            edge = _long_edge(unit.shape)
            aligned = -float(np.degrees(np.arctan2(edge[1], edge[0])))
            self.turns[unit.kind] = tuple((aligned + turn) % 360.0 for turn in FINE_DEG)
        return self.turns[unit.kind]


def _long_edge(shape: shapely.Polygon) -> tuple[float, float]:
    """Return the longer edge of the least rectangle around a shape."""
    ring = np.asarray(shapely.minimum_rotated_rectangle(shape).exterior.coords)
    edges = np.diff(ring[:3], axis=0)
    x, y = edges[int(np.argmax(np.linalg.norm(edges, axis=1)))]
    return float(x), float(y)
