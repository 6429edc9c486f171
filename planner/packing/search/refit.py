"""Copies that are wanted once more: laid into the gaps of plates that are still to be printed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import shapely
import shapely.affinity

from planner.job import Bed, usable_ground
from planner.packing.layout.item import Item, PackedPlate, placed_outline
from planner.packing.layout.one_by_one import order_in_turn
from planner.packing.layout.outline import filled, polygon
from planner.packing.layout.packed_unit import HERE, Copy, Spot, Unit, at_spot
from planner.packing.layout.plate import Placement
from planner.packing.layout.sharing_rules import Rules
from planner.packing.search.corner_fill import Filler


def refitted(
    plate: PackedPlate,
    copies: Sequence[Copy],
    items: Mapping[str, Item],
    *,
    bed: Bed,
    spacing_mm: float,
    rules: Rules,
) -> PackedPlate:
    """Return a plate with as many more copies as fit, the largest first; the others are left out.

    What lies on the plate keeps its place. A plate with copies in openings of others is left as it is.
    """
    turns = rules.in_turn
    if turns is not None:
        tall = frozenset(part for part, item in items.items() if item.height_mm > turns.under_mm)
        rules, spacing_mm = replace(rules, tall=tall), max(spacing_mm, turns.clear_mm)
    rules = replace(rules, together=())  # of a set that is partly printed, a lost piece may lie anywhere
    there = [(p.part, p.copy) for p in plate.placements]
    more = sorted(copies, key=lambda copy: (-polygon(items[copy[0]].rings).area, copy))
    units = [_unit(copy, items, plate.group.brim_mm) for copy in (*there, *more)]
    ground = usable_ground(bed)
    filler = Filler(units, ground, spacing_mm, rules)
    laid = {k: _spot(items[p.part], p) for k, p in enumerate(plate.placements)}
    floor, held = filler.floor_of(laid)
    if len(held) < len(laid):
        return plate
    layout = filler.filled(floor, held, range(len(there), len(units)))
    added = [_placement(units[k], items, spot) for k, spot in sorted(layout.items()) if k >= len(there)]
    placements = (*plate.placements, *added)
    if turns is not None:
        placements = order_in_turn(placements, {part: item.height_mm for part, item in items.items()})
    area = sum(polygon(items[p.part].rings).area for p in placements)
    return replace(plate, placements=placements, fill=float(area / ground.area))


def _unit(copy: Copy, items: Mapping[str, Item], brim_mm: float) -> Unit:
    """Return one copy as a unit."""
    item = items[copy[0]]
    shape = filled(filled(polygon(item.rings)).buffer(brim_mm))
    return Unit(copies=((copy, HERE),), shape=shape, kind=copy[0], order=item.order)


def _spot(item: Item, placement: Placement) -> Spot:
    """Return the spot at which a placement has its outline."""
    at = placed_outline(item.rings, placement).bounds
    turned = shapely.affinity.rotate(polygon(item.rings), placement.turn_deg, origin=(0.0, 0.0)).bounds
    return Spot(turn_deg=placement.turn_deg, shift_mm=(at[0] - turned[0], at[1] - turned[1]))


def _placement(unit: Unit, items: Mapping[str, Item], spot: Spot) -> Placement:
    """Return a unit of one copy as a placement."""
    (part, copy), _ = unit.copies[0]
    x0, y0, x1, y1 = at_spot(polygon(items[part].rings), spot).bounds
    turn = spot.turn_deg % 360.0
    return Placement(part=part, copy=copy, x_mm=(x0 + x1) / 2, y_mm=(y0 + y1) / 2, turn_deg=turn)
