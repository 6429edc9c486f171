"""Batch: groups of copies onto as few beds as can be found, each bed proved before it counts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, replace

from planner.cache import kept, key_of
from planner.job import Bed
from planner.packing.layout.group_packer import GroupPacker
from planner.packing.layout.item import Item, PackedPlate, Packing
from planner.packing.layout.outline import polygon
from planner.packing.layout.sharing_rules import NO_RULES, Rules
from planner.packing.search.effort import Effort

PLATES_VERSION = 9
"""Raised whenever packing changes, so that kept layouts are not trusted."""
RECORD = tuple(field.name for field in fields(PackedPlate))
"""What a kept plate tells: one that was kept by a version with other fields is never read."""


def pack(
    items: Sequence[Item], *, bed: Bed, spacing_mm: float, seed: int, budget_s: float, rules: Rules = NO_RULES
) -> Packing:
    """Lay all copies on beds, group by group, earliest risk first.

    Items of different groups never share a plate. A first answer stands at once, whatever the budget; the rest
    of it goes into fewer and fuller plates. ``budget_s`` is in seconds of effort, which is counted: the same job gives
    the same plates on any machine.
    """
    key = key_of(PLATES_VERSION, RECORD, tuple(items), bed, spacing_mm, seed, budget_s, rules)
    return kept("plates", key, Packing, lambda: _packed(items, bed, spacing_mm, seed, budget_s, rules))


def _packed(items: Sequence[Item], bed: Bed, spacing_mm: float, seed: int, budget_s: float, rules: Rules) -> Packing:
    """Pack every group; each gets the effort that its area asks for, and what the ones before it left.

    Where copies are printed one after another, the head's reach is their spacing.
    """
    turns = rules.in_turn
    if turns is not None:
        tall = frozenset(item.part for item in items if item.height_mm > turns.under_mm)
        rules, spacing_mm = replace(rules, tall=tall), max(spacing_mm, turns.clear_mm)
    plates: list[PackedPlate] = []
    unplaced: list[tuple[str, int, str]] = []
    groups = sorted(
        {item.group for item in items}, key=lambda g: (min(i.order for i in items if i.group == g), g.sort_key)
    )
    left_mm2 = sum(item.copies * polygon(item.rings).area for item in items) or 1.0
    broken, left_s = [names for names in rules.together if _groups_n(items, names) > 1], budget_s
    for group in groups:
        mine = [item for item in items if item.group == group]
        area = sum(item.copies * polygon(item.rings).area for item in mine)
        effort = Effort(left_s * area / left_mm2)
        packer = GroupPacker(mine, group, bed, spacing_mm, seed, rules)
        plates += packer.packed(effort)
        unplaced += packer.unplaced
        broken += packer.broken
        left_s, left_mm2 = max(0.0, left_s - effort.spent_s), max(left_mm2 - area, 1e-9)
    return Packing(plates=tuple(plates), unplaced=tuple(unplaced), broken=tuple(broken))


def _groups_n(items: Sequence[Item], names: frozenset[str]) -> int:
    """Return how many groups a set of parts is spread over."""
    return len({item.group for item in items if item.part in names})
