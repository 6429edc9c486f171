"""The proof of a finished plate, from scratch, on the true outlines; it shares no code with the search."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

import shapely

from planner.job import Bed
from planner.plates.item import Item, PackedPlate, placed_outline
from planner.plates.outline import Ring
from planner.plates.plate import Placement

SLACK_MM = 2e-3
"""Rounding of coordinates, far below what a nozzle can place."""


def verify_plate(
    placements: Sequence[Placement],
    rings: Mapping[str, tuple[Ring, ...]],
    *,
    bed: Bed,
    spacing_mm: float,
    brim_mm: float = 0.0,
) -> tuple[str, ...]:
    """Return what is wrong with one plate, in sentences; empty where it holds.

    Every outline, with its brim, must lie on the bed less its margins, and every two at least the spacing
    apart, holes counted as free.
    """
    wrong = []
    shapes = [placed_outline(rings[p.part], p).buffer(brim_mm) for p in placements]
    ground = _ground(bed)
    for placement, shape in zip(placements, shapes, strict=True):
        if not ground.buffer(SLACK_MM).covers(shape):
            wrong.append(f"{placement.part} {placement.copy} reaches over the usable bed")
    tree = shapely.STRtree(shapes)
    for a, b in tree.query(shapes, predicate="dwithin", distance=spacing_mm).T:
        if a >= b:
            continue
        one, other = placements[int(a)], placements[int(b)]
        apart = shapes[int(a)].distance(shapes[int(b)])
        if apart < spacing_mm - SLACK_MM:
            told = "overlap" if apart == 0.0 else f"lie {apart:.2f} mm apart, {spacing_mm:g} mm are asked for"
            wrong.append(f"{one.part} {one.copy} and {other.part} {other.copy} {told}")
    return tuple(wrong)


def verify(plates: Sequence[PackedPlate], items: Sequence[Item], *, bed: Bed, spacing_mm: float) -> tuple[str, ...]:
    """Return what is wrong with a whole packing: each plate, and every copy exactly once on a plate of its group."""
    wrong: list[str] = []
    rings = {item.part: item.rings for item in items}
    groups = {item.part: item.group for item in items}
    for plate in plates:
        wrong += verify_plate(plate.placements, rings, bed=bed, spacing_mm=spacing_mm, brim_mm=plate.group.brim_mm)
        wrong += [f"{p.part} is on a plate of another group" for p in plate.placements if groups[p.part] != plate.group]
    counted = Counter((p.part, p.copy) for plate in plates for p in plate.placements)
    meant = {(item.part, copy) for item in items for copy in range(1, item.copies + 1)}
    wrong += [f"{part} {copy} lies on no plate" for part, copy in sorted(meant - set(counted))]
    wrong += [f"{part} {copy} is one too many" for part, copy in sorted(set(counted) - meant)]
    wrong += [f"{part} {copy} lies on {n} plates" for (part, copy), n in sorted(counted.items()) if n > 1]
    return tuple(wrong)


def _ground(bed: Bed) -> shapely.Polygon:
    """Return the bed less its margins."""
    if bed.shape == "circle":
        middle = bed.size_mm[0] / 2
        return shapely.Point(middle, middle).buffer(middle - bed.margin_mm, quad_segs=256)
    m = bed.margin_mm
    return shapely.box(m, m, bed.size_mm[0] - m, bed.size_mm[1] - m)
