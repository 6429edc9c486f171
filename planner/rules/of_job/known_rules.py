"""Rules of parts that were bound before: under most answers, and most changes, most parts are as they were."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from operator import is_

from planner.finding import Vec3
from planner.rules.rule import Rule
from planner.survey import LayerView, Survey

Known = tuple[tuple[object, ...], tuple[object, ...], list[Rule]]
"""The rules of a part, with what was measured of it then, and what else they were bound from."""
KnownRules = dict[str, list[Known]]
"""What is known of each part."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What was measured of the meshes; the fields are those of ``rules_of``."""

    surveys: Mapping[str, Survey]
    downs: Mapping[str, Vec3]
    uneven: Mapping[str, Survey]
    views: Mapping[str, LayerView | None]

    def of(self, name: str) -> tuple[object, ...]:
        """Return what was measured of one part: the same objects, where nothing was measured anew."""
        return self.surveys[name], self.uneven.get(name), self.views.get(name)


def known_of(kept: Sequence[Known], measured: tuple[object, ...], made_from: tuple[object, ...]) -> list[Rule] | None:
    """Return rules that were bound from the same; None where none were. A measurement is the same object, or another."""
    return next((rules for of, other, rules in kept if all(map(is_, of, measured)) and other == made_from), None)
