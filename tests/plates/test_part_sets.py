"""Outside check: rectpack on boxes. Never more plates, mostly fewer, and fuller ones of irregular pieces."""

from __future__ import annotations

import pytest
import shapely

from planner.plates import Item, pack, verify
from tests.plates.part_sets import BED, CLASSIC, boxes, classic_set, own_set

SPACING_MM = 4.0
NAMES = [*(f"own {seed}" for seed in range(101, 107)), *CLASSIC]
FEWER = {"own 101", "own 102", "own 103", "own 104", "own 105", "own 106", "fu", "swim"}
"""Where fewer plates are asked for: eight of twelve."""
IRREGULAR_SHARE = 0.75
"""Pieces that fill less than this of their least boxes are irregular."""


def _set(name: str) -> list[Item]:
    """Return a set by its name."""
    return own_set(int(name[4:])) if name.startswith("own ") else classic_set(name)


def box_share(items: list[Item]) -> float:
    """Return the area of all outlines over that of their least boxes."""
    shapes = [shapely.Polygon(item.rings[0]) for item in items for _ in range(item.copies)]
    return sum(float(s.area) for s in shapes) / sum(float(shapely.minimum_rotated_rectangle(s).area) for s in shapes)


@pytest.mark.parametrize("name", NAMES)
def test_never_more_plates_than_boxes_mostly_fewer_and_fuller(name: str) -> None:
    """Against rectpack on least boxes; irregular pieces fill all plates but the last at least 1.15 times as well."""
    items = _set(name)
    theirs = boxes(items, SPACING_MM)
    packing = pack(items, bed=BED, spacing_mm=SPACING_MM, seed=1, budget_s=3.0)
    ours = sorted((plate.fill for plate in packing.plates), reverse=True)

    assert verify(packing.plates, items, bed=BED, spacing_mm=SPACING_MM) == ()
    assert len(ours) <= len(theirs) - (name in FEWER)
    assert sum(ours) == pytest.approx(sum(theirs), rel=1e-6)
    fill, other = sum(ours[:-1]) / (len(ours) - 1), sum(theirs[:-1]) / (len(theirs) - 1)
    assert fill >= 0.999 * other
    if len(theirs) >= 3 and box_share(items) < IRREGULAR_SHARE:
        assert fill >= 1.15 * other
