"""A first layout by boxes: every unit that fits has its box on a bed, clear of all others."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import shapely

from planner.packing.layout.packed_unit import HERE, Unit, at_spot
from planner.packing.search.boxes import boxed

BED_MM = (5.0, 5.0, 105.0, 85.0)


def _units() -> list[Unit]:
    """Return ten boxes, and one that is larger than the bed."""
    rng = np.random.default_rng(3)
    sizes = [*rng.uniform(15, 55, (10, 2)).tolist(), [120.0, 10.0]]
    return [
        Unit(copies=(((f"p{k}", 1), HERE),), shape=shapely.box(0, 0, x, y), kind=f"p{k}", order=0)
        for k, (x, y) in enumerate(sizes)
    ]


def test_boxes_lie_on_the_bed_and_apart() -> None:
    """Each unit once, inside the bed, 4 mm from its neighbours; what is larger than the bed is left out."""
    units = _units()
    plates = boxed(units, range(len(units)), BED_MM, 4.0, lambda _unit: 0.0)

    assert sorted(index for plate in plates for index in plate) == list(range(10))
    for plate in plates:
        shapes = [at_spot(units[index].shape, spot) for index, spot in plate.items()]
        assert all(shapely.box(*BED_MM).buffer(1e-6).contains(shape) for shape in shapes)
        assert all(one.distance(other) >= 4.0 - 2e-3 for one, other in combinations(shapes, 2))


def test_nothing_to_lay_is_no_plate() -> None:
    """Where no unit fits there is no bed."""
    units = _units()

    assert boxed(units, [10], BED_MM, 4.0, lambda _unit: 0.0) == []
