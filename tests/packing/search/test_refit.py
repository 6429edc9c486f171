"""Pieces wanted once more: laid into the gaps of a plate, what lies there unmoved, and proved."""

from __future__ import annotations

import shapely

from planner.packing import NO_RULES, InTurn, PackedPlate, Placement, Rules, verify
from planner.packing.search.refit import refitted
from tests.packing.part_sets import BED, GROUP, item_of

BIG, SMALL = item_of("big", shapely.box(0, 0, 150, 150)), item_of("small", shapely.box(0, 0, 40, 20), 3)
ITEMS = {"big": BIG, "small": SMALL}
PLATE = PackedPlate(
    group=GROUP, placements=(Placement(part="big", copy=1, x_mm=85.0, y_mm=85.0, turn_deg=0.0),), fill=0.5
)


def _refit(copies: list[tuple[str, int]], rules: Rules = NO_RULES) -> PackedPlate:
    """Return the plate with more copies."""
    return refitted(PLATE, copies, ITEMS, bed=BED, spacing_mm=4.0, rules=rules)


def test_what_lies_there_stays_and_the_small_ones_find_room() -> None:
    """Three small pieces lie beside the big one, which has not moved; the plate is proved and fuller."""
    found = _refit([("small", 1), ("small", 2), ("small", 3)])

    assert found.placements[0] == PLATE.placements[0]
    assert sorted((p.part, p.copy) for p in found.placements) == [("big", 1), *(("small", k) for k in (1, 2, 3))]
    assert verify([found], [BIG, SMALL], bed=BED, spacing_mm=4.0) == ()
    assert found.fill == (150 * 150 + 3 * 800) / 210**2


def test_what_finds_no_room_is_left_out() -> None:
    """A second big piece does not fit: the plate stays as it is."""
    assert _refit([("big", 2)]).placements == PLATE.placements


def test_copies_in_turn_keep_the_heads_reach() -> None:
    """Where a head needs 50 mm no place beside the big piece is left; 210 - 150 mm hold a gap of 50 and no piece of 20."""
    rules = Rules(in_turn=InTurn(clear_mm=50.0, under_mm=30.0))

    assert _refit([("small", 1)], rules).placements == PLATE.placements
