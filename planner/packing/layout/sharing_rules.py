"""Rules between parts: which lie together on one plate, and which never share one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from planner.packing.layout.one_by_one import InTurn
from planner.packing.layout.packed_unit import Unit

Names = frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """Sets of part names: all copies of a ``together`` set lie on one plate; no two of an ``apart`` set share one.

    ``in_turn`` is given where copies are printed one after another; then ``tall`` names the parts of which a plate
    takes one copy at most, the last.
    """

    together: tuple[Names, ...] = ()
    apart: tuple[Names, ...] = ()
    in_turn: InTurn | None = None
    tall: Names = frozenset()

    def bundle_of(self, part: str) -> int | None:
        """Return the index of the set that keeps a part together with others."""
        return next((k for k, names in enumerate(self.together) if part in names), None)

    def binds(self, part: str) -> bool:
        """Return whether any rule names a part."""
        return any(part in names for names in (*self.together, *self.apart, self.tall))

    def allow(self, laid: Iterable[Unit], unit: Unit) -> bool:
        """Return whether a unit may share a plate with others, by the ``apart`` sets and by what is tall."""
        if not self.tall and not self.apart:
            return True
        others = list(laid)
        if self.tall and self._tall(unit) and any(self._tall(other) for other in others):
            return False
        there = {part for other in others for (part, _), _ in other.copies}
        return not any(
            part in names and (there - {part}) & names for (part, _), _ in unit.copies for names in self.apart
        )

    def _tall(self, unit: Unit) -> bool:
        """Return whether a tall part is in a unit."""
        return any(part in self.tall for (part, _), _ in unit.copies)

    def beds_least(self, units: Iterable[Unit]) -> int:
        """Return the least number of beds by the rules: one for each part of an ``apart`` set, and each tall unit."""
        every = list(units)
        there = {part for unit in every for (part, _), _ in unit.copies}
        tall_n = sum(self._tall(unit) for unit in every) if self.tall else 0
        return max(1, tall_n, *(len(there & names) for names in self.apart))

    def bundled(self, units: Sequence[Unit], indices: Iterable[int]) -> list[list[int]]:
        """Return units in order, those of one bundle in one list, at the place of the first."""
        rows: dict[tuple[str, int], list[int]] = {}
        for index in indices:
            bundle = units[index].bundle
            rows.setdefault(("alone", index) if bundle is None else ("bundle", bundle), []).append(index)
        return list(rows.values())


NO_RULES = Rules()
