"""A first layout by boxes: the least rectangles around the outlines, packed by a library made for that."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import rectpack
import shapely

from planner.packing.layout.packed_unit import Layout, Spot, Unit, at_spot

PER_MM = 1000
"""The library packs whole numbers."""


def boxed(
    units: Sequence[Unit],
    indices: Sequence[int],
    bed_mm: tuple[float, float, float, float],
    apart_mm: float,
    turn_of: Callable[[Unit], float],
) -> list[Layout]:
    """Return beds packed with boxes; units whose box is larger than the bed are left out.

    ``bed_mm`` is the usable rectangle (x0, y0, x1, y1); every box is grown by the spacing, and so is the bed.
    ``turn_of`` gives the turn at which a unit's box is taken.
    """
    x0, y0, x1, y1 = bed_mm
    bed = math.floor((x1 - x0 + apart_mm) * PER_MM), math.floor((y1 - y0 + apart_mm) * PER_MM)
    packer = rectpack.newPacker(rotation=True)
    sizes = {}
    for index in indices:
        turn = turn_of(units[index])
        shape = at_spot(units[index].shape, Spot(turn_deg=turn, shift_mm=(0.0, 0.0)))
        a, b, c, d = shape.bounds
        size = math.ceil((c - a + apart_mm) * PER_MM), math.ceil((d - b + apart_mm) * PER_MM)
        if min(size) <= min(bed) and max(size) <= max(bed):
            sizes[index] = turn, size
            packer.add_rect(*size, rid=index)
    if not sizes:
        return []
    packer.add_bin(*bed, count=float("inf"))
    packer.pack()
    plates: list[Layout] = []
    for number, x, y, wide, deep, index in packer.rect_list():
        turn, size = sizes[index]
        turned = turn + (0.0 if (wide, deep) == size else 90.0)
        plates.extend({} for _ in range(number + 1 - len(plates)))
        plates[number][index] = _spot(units[index].shape, turned, (x0 + x / PER_MM, y0 + y / PER_MM))
    return plates


def _spot(shape: shapely.Polygon, turn_deg: float, corner: tuple[float, float]) -> Spot:
    """Return the spot at which a shape's box begins at a corner."""
    a, b, _, _ = at_spot(shape, Spot(turn_deg=turn_deg, shift_mm=(0.0, 0.0))).bounds
    return Spot(turn_deg=turn_deg % 360.0, shift_mm=(corner[0] - a, corner[1] - b))
