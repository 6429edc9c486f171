"""Random bed problems: shapes with and without holes, beds of every shape with zones, brims, groups and rules."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import shapely

from planner.job import Bed
from planner.packing import Group, Item, Rules
from tests.packing.part_sets import GROUP, item_of

L_BED = ((0.0, 0.0), (180.0, 0.0), (180.0, 90.0), (100.0, 90.0), (100.0, 180.0), (0.0, 180.0))
KITE = ((90.0, 0.0), (180.0, 70.0), (130.0, 170.0), (30.0, 150.0), (0.0, 60.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One problem; every item fits its bed alone."""

    items: tuple[Item, ...]
    bed: Bed
    spacing_mm: float
    rules: Rules


def problem(seed: int) -> Problem:
    """Return a random problem of 4 to 20 copies."""
    rng = np.random.default_rng([7, seed])
    spacing = float(rng.choice([0.0, 1.0, 4.0]))
    brim = float(rng.choice([0.0, 0.0, 3.0]))
    groups = [replace(GROUP, brim_mm=brim), replace(GROUP, colour="red", brim_mm=brim)]
    kinds = int(rng.integers(3, 9))
    items = tuple(_item(rng, k, groups[int(rng.random() < 0.2)]) for k in range(kinds))
    names = [item.part for item in items]
    apart = (frozenset(names[:2]),) if rng.random() < 0.3 else ()
    return Problem(items=items, bed=_bed(rng), spacing_mm=spacing, rules=Rules(apart=apart))


def _item(rng: np.random.Generator, k: int, group: Group) -> Item:
    """Return a hook, a frame, a ring, a triangle, a blob or a bar of 12 to 70 mm."""
    a, b = rng.uniform(16, 62), rng.uniform(12, 50)
    t = rng.uniform(0.15, 0.3) * min(a, b)
    blob = shapely.Polygon(
        [
            (r * np.cos(w), r * np.sin(w))
            for w, r in zip(np.sort(rng.uniform(0, 6.28, 8)), rng.uniform(8, 30, 8), strict=True)
        ]
    ).buffer(1.5)
    shapes = [
        shapely.Polygon([(0, 0), (a, 0), (a, t), (t, t), (t, b), (0, b)]),
        shapely.box(0, 0, 1.2 * a, 1.4 * b).difference(shapely.box(t, t, 1.2 * a - t, 1.4 * b - t)),
        shapely.Point(5, 5).buffer(a / 2).difference(shapely.Point(5, 5).buffer(a / 2 - t)),
        shapely.Polygon([(0, 0), (a, 0), (a * rng.random(), b)]),
        blob if isinstance(blob, shapely.Polygon) else shapely.box(0, 0, a, b),
        shapely.box(0, 0, a, t + 3),
    ]
    item = item_of(f"p{k}", shapes[int(rng.integers(6))], int(rng.integers(1, 4)), in_opening=bool(rng.random() < 0.5))
    return replace(item, group=group)


def _bed(rng: np.random.Generator) -> Bed:
    """Return a bed."""
    margin = float(rng.choice([0.0, 5.0]))
    clip = (((0.0, 70.0), (9.0, 70.0), (9.0, 90.0), (0.0, 90.0)),) if rng.random() < 0.4 else ()
    kind = int(rng.integers(4))
    if kind == 0:
        return Bed(shape="circle", size_mm=(170.0, 170.0), height_mm=100.0, margin_mm=margin, zones_mm=clip)
    if kind == 1:
        corners = L_BED if rng.random() < 0.5 else KITE
        x, y = (max(c[k] for c in corners) for k in (0, 1))
        return Bed(
            shape="polygon", size_mm=(x, y), height_mm=100.0, margin_mm=margin, outline_mm=corners, zones_mm=clip
        )
    size = (float(rng.uniform(110, 220)), float(rng.uniform(110, 220)))
    return Bed(shape="rectangle", size_mm=size, height_mm=100.0, margin_mm=margin, zones_mm=clip)
