"""A judge of plates that shares nothing with the planner: Clipper2's polygons (through manifold3d), no shapely."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from manifold3d import CrossSection, FillRule, JoinType

from planner.job import Bed
from planner.packing import Item, PackedPlate, Placement

NEAR_MM = 0.01
SPECK_MM2 = 1e-3


def _laid(rings: Sequence[Sequence[tuple[float, float]]], place: Placement) -> CrossSection:
    """Return an outline at its place, by the contract: turned, then its box's middle at (x, y)."""
    c, s = math.cos(math.radians(place.turn_deg)), math.sin(math.radians(place.turn_deg))
    turned = [[(c * x - s * y, s * x + c * y) for x, y in ring] for ring in rings]
    xs, ys = [x for x, _ in turned[0]], [y for _, y in turned[0]]
    dx, dy = place.x_mm - (min(xs) + max(xs)) / 2, place.y_mm - (min(ys) + max(ys)) / 2
    return CrossSection([[(x + dx, y + dy) for x, y in ring] for ring in turned], FillRule.EvenOdd)


def _grown(shape: CrossSection, by_mm: float) -> CrossSection:
    """Return a shape grown, or shrunk, with round corners."""
    return shape.offset(by_mm, JoinType.Round, 2.0, 64) if by_mm else shape


def _ground(bed: Bed) -> CrossSection:
    """Return the usable bed."""
    w, d = bed.size_mm
    if bed.shape == "circle":
        return CrossSection.circle(w / 2 - bed.margin_mm, 720).translate((w / 2, w / 2))
    corners = bed.outline_mm or ((0.0, 0.0), (w, 0.0), (w, d), (0.0, d))
    ground = _grown(CrossSection([list(corners)], FillRule.EvenOdd), -bed.margin_mm)
    for zone in bed.zones_mm:
        ground -= CrossSection([list(zone)], FillRule.EvenOdd)
    return ground


def faults(plates: Sequence[PackedPlate], items: Sequence[Item], bed: Bed, spacing_mm: float) -> list[str]:
    """Return what is wrong with plates: copies, groups, margins, zones, spacing, openings."""
    known = {item.part: item for item in items}
    counted = Counter((p.part, p.copy) for plate in plates for p in plate.placements)
    meant = Counter((item.part, copy) for item in items for copy in range(1, item.copies + 1))
    wrong = [f"copies {counted - meant} {meant - counted}"] if counted != meant else []
    room = _grown(_ground(bed), NEAR_MM)
    for plate in plates:
        brim = plate.group.brim_mm
        shapes = [_grown(_laid(known[p.part].rings, p), brim) for p in plate.placements]
        grown = [_grown(shape, spacing_mm / 2 - NEAR_MM) for shape in shapes]
        outer = [CrossSection([max(shape.to_polygons(), key=_area)], FillRule.NonZero) for shape in shapes]
        for i, p in enumerate(plate.placements):
            if known[p.part].group != plate.group:
                wrong.append(f"{p.part} on a plate of another group")
            if (shapes[i] - room).area() > SPECK_MM2:
                wrong.append(f"{p.part} {p.copy} over the edge by {(shapes[i] - room).area():.4f} mm2")
            for j, q in enumerate(plate.placements):
                if j > i and (grown[i] ^ grown[j]).area() > SPECK_MM2:
                    wrong.append(f"{p.part} {p.copy} and {q.part} {q.copy} too near")
                inner = known[p.part].in_opening and not brim
                if j != i and not inner and (shapes[i] - outer[j]).area() < SPECK_MM2:
                    wrong.append(f"{p.part} {p.copy} in an opening of {q.part}")
    return wrong


def _area(ring: object) -> float:
    """Return a ring's signed area: outer rings are positive, holes negative."""
    points = [(float(x), float(y)) for x, y in ring]  # type: ignore[attr-defined]
    pairs = zip(points, [*points[1:], points[0]], strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)
