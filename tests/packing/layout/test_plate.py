"""What plates are told by: their copies counted, and what is set by hand for them."""

from __future__ import annotations

from dataclasses import replace

from planner.packing.layout.plate import Placement, counted
from tests.packing.part_sets import GROUP


def test_copies_are_counted_in_the_order_in_which_parts_come() -> None:
    """Two of b and one of a, b first because it lies first."""
    laid = [Placement(part=part, copy=k, x_mm=0.0, y_mm=0.0, turn_deg=0.0) for k, part in enumerate("bab")]

    assert list(counted(laid).items()) == [("b", 2), ("a", 1)]


def test_every_setting_made_by_hand_tells_groups_apart() -> None:
    """Support, brim, colour, material and an own layer height each make another group, in words and in order."""
    others = [
        replace(GROUP, support=True),
        replace(GROUP, brim_mm=4.0),
        replace(GROUP, layer_height_mm=0.12),
        replace(GROUP, colour="white"),
        replace(GROUP, material="pla"),
    ]

    assert len({group.sort_key for group in (GROUP, *others)}) == 6
    assert len({group.by_hand for group in (GROUP, *others[:3])}) == 4
    assert others[1].by_hand == "support off, brim 4 mm"
