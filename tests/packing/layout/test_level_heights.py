"""Balance of heights: low pieces with low ones where that adds no plate, and never at the cost of early risks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
import shapely

from planner.packing import Item, PackedPlate, pack, verify
from tests.packing.judge import faults
from tests.packing.part_sets import BED, item_of


def plates_of(items: Sequence[Item], *, level: bool = True) -> tuple[PackedPlate, ...]:
    """Pack, and prove twice; without ``level`` all pieces count as equally high."""
    asked = list(items) if level else [replace(item, height_mm=1.0) for item in items]
    plates = pack(asked, bed=BED, spacing_mm=4.0, seed=1, budget_s=0.0).plates
    assert verify(plates, asked, bed=BED, spacing_mm=4.0) == ()
    assert faults(plates, asked, BED, 4.0) == []
    return plates


def tops(plates: Sequence[PackedPlate], items: Sequence[Item]) -> list[float]:
    """Return the heights of plates."""
    heights = {item.part: item.height_mm for item in items}
    return [max(heights[p.part] for p in plate.placements) for plate in plates]


def test_high_pieces_share_one_plate_and_leave_a_low_one() -> None:
    """Four high and four low squares of one size fill two beds: one of each kind, 80 + 5 mm instead of 80 + 80."""
    square = shapely.box(0, 0, 100, 100)
    items = [replace(item_of(f"p{k}", square), height_mm=80.0 if k % 2 else 5.0) for k in range(8)]
    before = plates_of(items, level=False)
    after = plates_of(items)

    assert sum(tops(before, items)) == 160.0
    assert sorted(tops(after, items)) == [5.0, 80.0]
    assert len(after) == len(before) == 2


def test_early_risks_stay_early() -> None:
    """A high pin and a low cover: pins are printed first, so a high pin stays on the first plate among low ones."""
    square = shapely.box(0, 0, 100, 100)
    pins = [replace(item_of(f"pin{k}", square), height_mm=80.0 if k == 0 else 5.0, order=0) for k in range(4)]
    covers = [replace(item_of(f"cover{k}", square), height_mm=80.0 if k == 0 else 5.0, order=4) for k in range(4)]
    plates = plates_of([*pins, *covers])

    assert {p.part[:3] for p in plates[0].placements} == {"pin"}


@pytest.mark.parametrize("seed", range(6))
def test_never_more_plates_never_higher(seed: int) -> None:
    """Property: on random sets the number of plates is that without heights, and their sum of heights no more."""
    rng = np.random.default_rng(seed)
    items = [
        replace(item_of(f"p{k}", shapely.box(0, 0, *rng.uniform(40, 110, 2))), height_mm=float(rng.uniform(3, 120)))
        for k in range(14)
    ]
    before, after = plates_of(items, level=False), plates_of(items)

    assert len(after) == len(before)
    assert sum(tops(after, items)) <= sum(tops(before, items)) + 1e-9
