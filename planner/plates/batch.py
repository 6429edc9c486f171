"""Batch: groups of copies onto as few beds as can be found, each bed proved before it counts."""

from __future__ import annotations

import os
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from itertools import pairwise

import shapely
import shapely.affinity

from planner.cache import kept, key_of
from planner.job import Bed
from planner.plates.corner_fill import filled_bed
from planner.plates.item import Item, PackedPlate, Packing
from planner.plates.outline import polygon
from planner.plates.plate import Group, Placement
from planner.plates.search import grown, laid_in_strip
from planner.plates.verify import verify_plate

PLATES_VERSION = 1
"""Raised whenever packing changes, so that kept layouts are not trusted."""
FULL_SHARE = 0.92
"""Grown outlines of more than this share of the bed are not tried on one plate."""
QUICK_S = 2.0
"""A first answer within this; the engine counts whole seconds."""
CORNER_MM = 0.02
"""A round of 8 facets a quarter lies inside its circle by 0.5 %: this much at 4 mm."""
SLIPS_MM = (0.0, 0.05, 0.15)
"""Extra growth, tried in turn, where the engine's layout fails the proof by a hair."""

Copy = tuple[str, int]


def pack(items: Sequence[Item], *, bed: Bed, spacing_mm: float, seed: int, budget_s: float) -> Packing:
    """Lay all copies on beds, group by group, earliest risk first.

    Items of different groups never share a plate. The accepted layout is kept under everything it depends
    on, so that the same job gives the same plates although the engine's clock does not.
    """
    key = key_of(PLATES_VERSION, tuple(items), bed, spacing_mm, seed, budget_s)
    return kept("plates", key, lambda: _packed(items, bed, spacing_mm, seed, budget_s))


def usable_bed(bed: Bed, by_mm: float = 0.0) -> shapely.Polygon:
    """Return the usable bed from its front left corner, grown by a margin."""
    if bed.shape == "circle":
        centre = bed.size_mm[0] / 2
        return shapely.Point(centre, centre).buffer(bed.usable_mm[0] / 2, quad_segs=64).buffer(by_mm)
    m = bed.margin_mm - by_mm
    return shapely.box(m, m, bed.size_mm[0] - m, bed.size_mm[1] - m)


def _packed(items: Sequence[Item], bed: Bed, spacing_mm: float, seed: int, budget_s: float) -> Packing:
    """Pack every group."""
    plates: list[PackedPlate] = []
    unplaced: list[tuple[str, int, str]] = []
    groups = sorted(
        {item.group for item in items}, key=lambda g: (min(i.order for i in items if i.group == g), g.sort_key)
    )
    total = sum(item.copies * polygon(item.rings).area for item in items) or 1.0

    def packed(group: Group) -> tuple[list[PackedPlate], list[tuple[str, int, str]]]:
        mine = {item.part: item for item in items if item.group == group}
        area = sum(item.copies * polygon(item.rings).area for item in mine.values())
        packer = _GroupPacker(mine, group, bed, spacing_mm, seed)
        return packer.packed(max(2.0, budget_s * area / total)), packer.unplaced

    with ThreadPoolExecutor(os.cpu_count() or 1) as both:  # the engine leaves the interpreter free
        for found, lost in both.map(packed, groups):
            plates += found
            unplaced += lost
    return Packing(plates=tuple(plates), unplaced=tuple(unplaced))


class _GroupPacker:
    """The work on one group: copies left, plates done."""

    def __init__(self, items: dict[str, Item], group: Group, bed: Bed, spacing_mm: float, seed: int) -> None:
        self.items, self.group, self.bed, self.spacing_mm, self.seed = items, group, bed, spacing_mm, seed
        self.outlines = {name: polygon(item.rings).buffer(group.brim_mm) for name, item in items.items()}
        self.unplaced: list[tuple[str, int, str]] = []
        self.left: list[Copy] = []
        for item in sorted(items.values(), key=lambda i: (i.order, i.part)):
            fits = self._fits_alone(item.part)
            copies = [(item.part, copy) for copy in range(1, item.copies + 1)]
            if fits:
                self.left += copies
            else:
                self.unplaced += [(part, copy, "it does not fit this bed at any turn") for part, copy in copies]

    def packed(self, budget_s: float) -> list[PackedPlate]:
        """Fill beds until nothing is left."""
        plates: list[PackedPlate] = []
        while self.left:
            plate = self._one_plate(budget_s)
            plates.append(plate)
            done = {(p.part, p.copy) for p in plate.placements}
            self.left = [copy for copy in self.left if copy not in done]
        return plates

    def _fits_alone(self, part: str) -> bool:
        """Return whether one copy fits the empty bed."""
        return bool(self._proved([(part, 1)], *self._alone(part)))

    def _alone(self, part: str) -> tuple[Placement, ...]:
        """Return a copy alone in the middle of the bed, at its best turn of a fine sample."""
        middle = usable_bed(self.bed).centroid
        hull = shapely.convex_hull(self.outlines[part])
        width, depth = self.bed.usable_mm

        def over(turn: float) -> float:
            x0, y0, x1, y1 = shapely.affinity.rotate(hull, turn).bounds
            return float(max((x1 - x0) / width, (y1 - y0) / depth))

        turns = sorted((k * 0.5 for k in range(360)), key=over)
        return (Placement(part=part, copy=1, x_mm=middle.x, y_mm=middle.y, turn_deg=turns[0]),)

    def _one_plate(self, budget_s: float) -> PackedPlate:
        """Fill one bed: all that is left if it may fit, else the front of a long strip, else one by one."""
        if self.bed.shape == "rectangle":
            quick = self._by_strip(QUICK_S, SLIPS_MM[0])
            if quick is not None and len(quick.placements) == len(self.left):
                return quick  # everything lies on one bed: no need to look longer
            for slip in SLIPS_MM:
                plate = self._by_strip(budget_s, slip)
                if plate is not None:
                    return plate
        plate = self._by_corner()
        if plate is not None:
            return plate
        part, copy = self.left[0]
        return self._plate([replace(p, copy=copy) for p in self._alone(part)])

    def _grown(self, copies: Sequence[Copy], slip_mm: float) -> dict[int, shapely.Polygon]:
        """Return the grown outlines of some copies by their index."""
        shapes = {part: grown(self.outlines[part], self.spacing_mm / 2 + slip_mm) for part in {p for p, _ in copies}}
        return {index: shapes[part] for index, (part, _) in enumerate(copies)}

    def _by_strip(self, budget_s: float, slip_mm: float) -> PackedPlate | None:
        """Lay what is left into a strip and keep what ends on the first bed; None where the proof fails."""
        by = self.spacing_mm / 2
        x0, y0, x1, y1 = usable_bed(self.bed, by).bounds
        width, height = x1 - x0, y1 - y0
        copies = self._chosen((x1 - x0) * (y1 - y0), slip_mm)
        shapes = self._grown(copies, slip_mm)
        if any(_least_box(shape)[0] > min(width, height) for shape in shapes.values()):
            return None  # one fits only without the growth: the plain search knows the true bed
        try:
            laid = laid_in_strip(shapes, height, seed=self.seed, budget_s=max(2, round(budget_s)))
        except (ValueError, RuntimeError):
            return None
        front = [place for place in laid if place.far_mm <= width + 1e-6]
        placements = []
        for place in sorted(front, key=lambda each: each.key):
            part, copy = copies[place.key]
            placements.append(
                self._placement(part, copy, place.turn_deg, (place.shift_mm[0] + x0, place.shift_mm[1] + y0))
            )
        if not placements or not self._proved(self.left, *placements):
            return None
        return self._plate(placements)

    def _chosen(self, bed_mm2: float, slip_mm: float) -> list[Copy]:
        """Return the copies to lay next: all, or in risk order about as many as two beds could hold."""
        shapes = self._grown(self.left, slip_mm)
        total, chosen = 0.0, []
        for index, copy in enumerate(self.left):
            total += shapes[index].area
            chosen.append(copy)
            if total > 1.6 * FULL_SHARE * bed_mm2:
                break
        return chosen

    def _by_corner(self) -> PackedPlate | None:
        """Lay copies one by one on the true bed."""
        by = self.spacing_mm / 2
        shapes = {
            index: shapely.Polygon(self.outlines[part].exterior).buffer(by + CORNER_MM, quad_segs=8)
            for index, (part, _) in enumerate(self.left)
        }
        laid = filled_bed(shapes, usable_bed(self.bed, by))
        placements = [self._placement(*self.left[index], turn, shift) for index, (turn, shift) in sorted(laid.items())]
        return self._plate(placements) if placements and self._proved(self.left, *placements) else None

    def _placement(self, part: str, copy: int, turn_deg: float, shift: tuple[float, float]) -> Placement:
        """Return a placement from a turn about the outline's origin and a shift."""
        turned = shapely.affinity.rotate(polygon(self.items[part].rings), turn_deg, origin=(0.0, 0.0))
        x0, y0, x1, y1 = turned.bounds
        return Placement(
            part=part,
            copy=copy,
            x_mm=(x0 + x1) / 2 + shift[0],
            y_mm=(y0 + y1) / 2 + shift[1],
            turn_deg=turn_deg % 360.0,
        )

    def _proved(self, copies: Sequence[Copy], *placements: Placement) -> bool:
        """Return whether a plate holds, on the true outlines."""
        known = {(p.part, p.copy) for p in placements} <= set(copies)
        rings = {name: item.rings for name, item in self.items.items()}
        return known and not verify_plate(
            placements, rings, bed=self.bed, spacing_mm=self.spacing_mm, brim_mm=self.group.brim_mm
        )

    def _plate(self, placements: Sequence[Placement]) -> PackedPlate:
        """Return a finished plate."""
        area = sum(polygon(self.items[p.part].rings).area for p in placements)
        return PackedPlate(group=self.group, placements=tuple(placements), fill=area / usable_bed(self.bed).area)


def _least_box(shape: shapely.Polygon) -> tuple[float, float]:
    """Return the sides of the smallest rectangle around a shape."""
    ring = list(shapely.minimum_rotated_rectangle(shape).exterior.coords)
    sides = [shapely.Point(a).distance(shapely.Point(b)) for a, b in pairwise(ring[:3])]
    return float(min(sides)), float(max(sides))
