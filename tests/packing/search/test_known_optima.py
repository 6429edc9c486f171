"""Outside checks: problems whose optimum or best known answer is published."""

from __future__ import annotations

import csv
import json
import time
from functools import cache
from typing import Any

import pytest
import shapely
import shapely.affinity

from planner.job import Bed
from planner.packing import Item, pack, verify
from planner.packing.search.strip import Laid, grown, laid_in_strip
from tests.packing.part_sets import classic_set, item_of
from tests.shapes import DATA

GAP_MM = 0.05
"""What is cut off pieces and bed, and asked for as spacing: the problem stays the same, and nothing touches."""
HAIR_MM = 1e-3
SIDE_MM = 200.0
COMPUTED_S = 2.0


@cache
def _instances(name: str) -> list[dict[str, Any]]:
    """Return the instances of a file."""
    found: list[dict[str, Any]] = json.loads((DATA / "nesting" / name).read_text(encoding="utf-8"))["instances"]
    return found


def _rectangles(sides: list[tuple[float, float, int]], wide: float, deep: float) -> tuple[list[Item], Bed]:
    """Return rectangles and a bin as items and a bed of our size."""
    by = SIDE_MM / max(wide, deep)
    items = [
        item_of(f"r{k}", shapely.box(0.0, 0.0, x * by - GAP_MM - HAIR_MM, y * by - GAP_MM - HAIR_MM), copies)
        for k, (x, y, copies) in enumerate(sides)
    ]
    return items, Bed(
        shape="rectangle", size_mm=(wide * by - GAP_MM, deep * by - GAP_MM), height_mm=100.0, margin_mm=0.0
    )


def _density(shapes: list[shapely.Polygon], height_mm: float) -> float:
    """Return the density of a strip that the engine laid in two seconds of computing, however busy the machine is."""
    laid, budget_s = list[Laid](), 3
    begin = time.process_time()
    while budget_s < 60 and time.process_time() - begin < COMPUTED_S:
        begin = time.process_time()
        laid = laid_in_strip({k: grown(s, 0.0) for k, s in enumerate(shapes)}, height_mm, seed=3, budget_s=budget_s)
        budget_s *= 2
    assert len(laid) == len(shapes)
    return sum(float(s.area) for s in shapes) / (height_mm * max(place.far_mm for place in laid))


@cache
def _bins(name: str) -> int:
    """Return how many proved plates a bin problem takes at first answer."""
    asked = next(each for each in _instances("bins.json") if each["id"] == name)
    items, bed = _rectangles([tuple(item) for item in asked["items"]], *asked["bin"])
    plates = pack(items, bed=bed, spacing_mm=GAP_MM, seed=1, budget_s=0.0).plates
    assert verify(plates, items, bed=bed, spacing_mm=GAP_MM) == ()
    return len(plates)


@pytest.mark.parametrize("asked", _instances("bins.json"), ids=lambda each: each["id"])
def test_rectangles_take_few_bins_more_than_the_best_known(asked: dict[str, Any]) -> None:
    """Berkey and Wang 1987, Martello and Vigo 1998, turned by 90°: at once, at most two bins more, never below area."""
    assert asked["area_lb"] <= _bins(asked["id"]) <= asked["best_rot90"] + 2


def test_all_bin_problems_together_take_at_most_six_percent_more() -> None:
    """Measured: 142 bins at the first answer where the best known are 136, 4.4 % more."""
    ours = sum(_bins(each["id"]) for each in _instances("bins.json"))

    assert ours <= 1.06 * sum(each["best_rot90"] for each in _instances("bins.json"))


@pytest.mark.parametrize("asked", _instances("perfect_rectangles.json"), ids=lambda each: each["id"])
def test_a_bed_that_rectangles_can_fill_is_filled_to_seventeen_twentieths_at_once(asked: dict[str, Any]) -> None:
    """Hopper and Turton 2001, C1 to C3, optimum 100 %: measured 92 to 99 % on the first of two plates."""
    sides = [(x, y, 1) for x, y in asked["items"]]
    items, bed = _rectangles(sides, asked["strip_width"], asked["opt_height"])
    plates = pack(items, bed=bed, spacing_mm=GAP_MM, seed=1, budget_s=0.0).plates

    assert verify(plates, items, bed=bed, spacing_mm=GAP_MM) == ()
    assert len(plates) <= 2
    assert 0.85 <= max(plate.fill for plate in plates) <= 1.0


@pytest.mark.parametrize("asked", _instances("jigsaws.json"), ids=lambda each: each["id"])
def test_jigsaws_are_laid_to_four_fifths_of_their_optimum(asked: dict[str, Any]) -> None:
    """Dighe, optimum 100 % at given turns; ours turn freely and do not know the picture: measured 82 and 85 % in 2 s."""
    shapes = [
        shapely.affinity.scale(shapely.Polygon(piece["polygon"]), 2.0, 2.0, origin=(0.0, 0.0))
        for piece in asked["pieces"]
        for _ in range(piece["quantity"])
    ]
    density = _density(shapes, SIDE_MM)

    assert 0.75 <= density <= 1.0


@pytest.mark.parametrize("name", ["albano", "dagli"])
def test_strips_come_near_published_densities(name: str) -> None:
    """Elkeran 2013 (guided cuckoo search, minutes): at least nine tenths in 2 s; never above 1.02 times the best known."""
    rows = [
        line
        for line in (DATA / "nesting" / "published_densities.csv").read_text(encoding="utf-8").splitlines()
        if line[0] != "#"
    ]
    row = next(row for row in csv.DictReader(rows) if f"/{name}" in row["Path"])
    copies = [shapely.Polygon(item.rings[0]) for item in classic_set(name) for _ in range(item.copies)]
    percent = 100.0 * _density(copies, 214.0)

    assert 0.9 * float(row["Elkeran 2013"]) <= percent <= 1.02 * float(row["Best known"])
