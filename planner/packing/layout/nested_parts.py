"""Small parts in the openings of big ones: such a pair moves as one unit and takes no more room than the big one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import shapely

from planner.packing.layout.packed_unit import HERE, Unit
from planner.packing.layout.sharing_rules import NO_RULES
from planner.packing.search.bed_filling import FRONT, Floor, cell_mm
from planner.packing.search.corner_fill import Filler


def nested(
    units: Sequence[Unit], holes: Mapping[str, shapely.MultiPolygon], guests: frozenset[str], apart_mm: float
) -> list[Unit]:
    """Return units with as many guests as fit laid into the openings of others, largest first.

    ``holes`` are the openings by part, in the outline's frame; ``guests`` are parts that may lie in one. What
    a rule binds should be in neither. A guest keeps the spacing to the opening's wall.
    """
    mine = [unit for unit in units if unit.copies[0][0][0] in guests]
    hosts = [unit for unit in units if _room(unit, holes, apart_mm) is not None]
    left = sorted(range(len(mine)), key=lambda k: (-mine[k].area_mm2, mine[k].copies[0][0]))
    inside: dict[int, Unit] = {}
    for host in sorted(hosts, key=lambda unit: -unit.area_mm2):
        room = _room(host, holes, apart_mm)
        if room is None or any(mine[k] is host for k in set(range(len(mine))) - set(left)):
            continue  # it lies in an opening itself
        least = min((mine[k].area_mm2 for k in left if mine[k] is not host), default=float("inf"))
        if room.area < least:
            continue
        filler = Filler(mine, room, apart_mm, NO_RULES)
        filler.shapes.cell_mm = cell_mm(room)
        others = [k for k in left if mine[k] is not host]
        found = filler.filled(Floor(room, apart_mm, filler.shapes), {}, others, score=FRONT)
        if found:
            copies = tuple((mine[k].copies[0][0], spot) for k, spot in found.items())
            inside[id(host)] = replace(host, copies=(*host.copies, *copies))
            left = [k for k in left if k not in found and mine[k] is not host]
    taken = {copy for unit in inside.values() for copy, _ in unit.copies[1:]}
    kept = [inside.get(id(unit), unit) for unit in units if unit.copies[0][0] not in taken]
    assert sum(len(unit.copies) for unit in kept) == sum(len(unit.copies) for unit in units)
    return kept


def _room(
    unit: Unit, holes: Mapping[str, shapely.MultiPolygon], apart_mm: float
) -> shapely.Polygon | shapely.MultiPolygon | None:
    """Return where guests may lie in a unit, None where nowhere."""
    part = unit.copies[0][0][0]
    if part not in holes or unit.copies != ((unit.copies[0][0], HERE),):
        return None
    room = holes[part].buffer(-max(apart_mm, 0.02))
    return None if room.is_empty else room
