"""Beds emptied and filled again: never less full, nothing lost or doubled, and the same for the same seed."""

from __future__ import annotations

import shapely

from planner.packing.layout.packed_unit import HERE, Layout, Unit
from planner.packing.layout.sharing_rules import NO_RULES
from planner.packing.search.corner_fill import Filler
from planner.packing.search.refill import Refiller

UNITS = [
    Unit(copies=(((f"p{k}", 1), HERE),), shape=shapely.box(0, 0, side, side), kind=f"p{k}", order=0)
    for k, side in enumerate((45.0, 45.0, 45.0, 45.0, 30.0))
]
SPREAD: list[Layout] = [{k: HERE} for k in range(len(UNITS))]


def _refiller(seed: int) -> Refiller:
    """Return a refiller of beds of 100 x 100 mm."""
    return Refiller(Filler(UNITS, shapely.box(0, 0, 100, 100), 4.0, NO_RULES), seed)


def _rounds(seed: int, n: int) -> list[list[Layout]]:
    """Return layouts after every change, from one unit a bed on."""
    refiller, found = _refiller(seed), [SPREAD]
    for _ in range(n):
        found.append(refiller.changed(found[-1]))
    return found


def test_five_beds_become_two_and_no_change_is_worse() -> None:
    """Four squares of 45 mm fill a bed of 100, so that five units need two: reached, step by step, no unit lost."""
    found, refiller = _rounds(1, 12), _refiller(1)
    worth = [refiller.emptiness(plates) for plates in found]

    assert worth == sorted(worth, reverse=True)
    assert len(found[-1]) == 2
    assert all(sorted(k for plate in plates for k in plate) == list(range(5)) for plates in found)


def test_the_same_seed_draws_the_same_changes() -> None:
    """Two refillers of one seed give the same layouts to the last bit."""
    assert _rounds(3, 4) == _rounds(3, 4)


def test_of_as_many_beds_the_uneven_ones_are_worth_more() -> None:
    """By hand: three squares and one crowd more than two and two; one bed fewer beats both."""
    refiller = _refiller(1)
    crowded, even = [{0: HERE, 1: HERE, 2: HERE}, {3: HERE}], [{0: HERE, 1: HERE}, {2: HERE, 3: HERE}]

    assert refiller.emptiness(crowded) == (2, -((3 * 2025.0) ** 2 + 2025.0**2))
    assert refiller.emptiness([{0: HERE, 1: HERE, 2: HERE, 3: HERE}]) < refiller.emptiness(crowded)
    assert refiller.emptiness(crowded) < refiller.emptiness(even)
