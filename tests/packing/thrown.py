"""Units and searches for the tests of separation: pieces of our own sets on one bed."""

from __future__ import annotations

from collections.abc import Sequence

from planner.packing import Item, Rules, verify
from planner.packing.layout.group_packer import GroupPacker
from planner.packing.layout.packed_unit import Layout, Unit
from planner.packing.search.group_search import GroupSearch
from tests.packing.part_sets import BED, own_set

SPACING_MM = 4.0


class Case:
    """Some copies of one of our own sets, as units, and the search over them."""

    def __init__(self, seed: int, kinds_n: int) -> None:
        self.items: list[Item] = own_set(seed)[:kinds_n]
        self.packer = GroupPacker(self.items, self.items[0].group, BED, SPACING_MM, seed, Rules())
        self.units: list[Unit] = self.packer._units()
        self.search: GroupSearch = self.packer._search(self.units)

    def wrong(self, plates: Sequence[Layout]) -> tuple[str, ...]:
        """Return what the proof finds wrong with layouts."""
        packed = [self.packer._plate(self.units, plate) for plate in plates]
        return verify(packed, self.items, bed=BED, spacing_mm=SPACING_MM)
