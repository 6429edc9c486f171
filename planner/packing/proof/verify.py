"""The proof of a finished plate, from scratch, on the true outlines; it shares no code with the search."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

import shapely

from planner.job import Bed
from planner.packing.layout.item import Item, PackedPlate, placed_outline
from planner.packing.layout.outline import Ring
from planner.packing.layout.plate import Placement
from planner.packing.layout.sharing_rules import NO_RULES, Rules
from planner.packing.proof.verify_one_by_one import turn_faults
from planner.phrases import listed

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

    Every outline, with its brim, must lie on the bed less its margins and off every zone, and every two at
    least the spacing apart, holes counted as free.
    """
    wrong = []
    shapes = [placed_outline(rings[p.part], p).buffer(brim_mm) for p in placements]
    ground = _ground(bed).buffer(SLACK_MM, join_style="mitre")
    zones = [shapely.Polygon(zone).buffer(-SLACK_MM) for zone in bed.zones_mm]
    for placement, shape in zip(placements, shapes, strict=True):
        if not ground.covers(shape):
            wrong.append(f"{placement.part} {placement.copy} extends beyond the usable bed")
        if any(zone.intersects(shape) for zone in zones):
            wrong.append(f"{placement.part} {placement.copy} reaches into a zone of the bed that must stay clear")
    tree = shapely.STRtree(shapes)
    for a, b in tree.query(shapes, predicate="dwithin", distance=spacing_mm).T:
        if a >= b:
            continue
        one, other = placements[int(a)], placements[int(b)]
        apart = shapes[int(a)].distance(shapes[int(b)])
        within = apart == 0.0 and shapes[int(a)].buffer(-SLACK_MM).intersects(shapes[int(b)].buffer(-SLACK_MM))
        if within or apart < spacing_mm - SLACK_MM:
            told = "overlap" if apart == 0.0 else f"lie {apart:.2f} mm apart; {spacing_mm:g} mm are required"
            wrong.append(f"{one.part} {one.copy} and {other.part} {other.copy} {told}")
    return tuple(wrong)


def verify(
    plates: Sequence[PackedPlate], items: Sequence[Item], *, bed: Bed, spacing_mm: float, rules: Rules = NO_RULES
) -> tuple[str, ...]:
    """Return what is wrong with a whole packing.

    Each plate is proved alone; every copy lies exactly once on a plate of its group, no copy in an opening
    that may not, what must lie together or apart does, and no head hits a finished copy.
    """
    wrong: list[str] = []
    rings = {item.part: item.rings for item in items}
    groups = {item.part: item.group for item in items}
    heights = {item.part: item.height_mm for item in items}
    inner = {item.part for item in items if item.in_opening and not item.group.brim_mm}
    for plate in plates:
        wrong += verify_plate(plate.placements, rings, bed=bed, spacing_mm=spacing_mm, brim_mm=plate.group.brim_mm)
        wrong += [f"{p.part} is on a plate of another group" for p in plate.placements if groups[p.part] != plate.group]
        if rules.in_turn is not None:
            wrong += turn_faults(plate.placements, rings, heights, rules.in_turn, plate.group.brim_mm)
        wrong += _in_openings(plate.placements, rings, inner)
    counted = Counter((p.part, p.copy) for plate in plates for p in plate.placements)
    meant = {(item.part, copy) for item in items for copy in range(1, item.copies + 1)}
    wrong += [f"{part} {copy} lies on no plate" for part, copy in sorted(meant - set(counted))]
    wrong += [f"{part} {copy} is one too many" for part, copy in sorted(set(counted) - meant)]
    wrong += [f"{part} {copy} lies on {n} plates" for (part, copy), n in sorted(counted.items()) if n > 1]
    return (*wrong, *_against_rules(plates, rules))


def _in_openings(placements: Sequence[Placement], rings: Mapping[str, tuple[Ring, ...]], inner: set[str]) -> list[str]:
    """Name the copies that lie in an opening of another and may not."""
    hosts = [p for p in placements if len(rings[p.part]) > 1]
    around = [shapely.Polygon(placed_outline(rings[p.part], p).exterior) for p in hosts]
    return [
        f"{p.part} {p.copy} lies in an opening of {host.part} {host.copy}, which is not allowed"
        for p in placements
        if p.part not in inner
        for host, outer in zip(hosts, around, strict=True)
        if host is not p and outer.contains(placed_outline(rings[p.part], p))
    ]


def _against_rules(plates: Sequence[PackedPlate], rules: Rules) -> list[str]:
    """Name the sets of parts that lie on several plates or on one, against a rule."""
    on = [{p.part for p in plate.placements} for plate in plates]
    wrong = [
        f"{listed(sorted(names))} must lie on one plate, but lie on several"
        for names in rules.together
        if sum(bool(names & parts) for parts in on) > 1
    ]
    return wrong + [
        f"{listed(sorted(names & parts))} must not share a plate, but do"
        for names in rules.apart
        for parts in on
        if len(names & parts) > 1
    ]


def _ground(bed: Bed) -> shapely.Polygon:
    """Return the bed less its margins."""
    if bed.shape == "circle":
        middle = bed.size_mm[0] / 2
        return shapely.Point(middle, middle).buffer(middle - bed.margin_mm, quad_segs=256)
    m = bed.margin_mm
    if bed.shape == "polygon":
        edge = shapely.Polygon(bed.outline_mm)
        return edge.difference(edge.exterior.buffer(m, quad_segs=64)) if m else edge
    return shapely.box(m, m, bed.size_mm[0] - m, bed.size_mm[1] - m)
