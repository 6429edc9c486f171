"""Outside check: the engine alone. Our strips lose little by the growth that keeps them valid."""

from __future__ import annotations

import pytest
import shapely
import spyrrow

from planner.packing.search.strip import grown, laid_in_strip
from tests.packing.part_sets import classic_set

HEIGHT_MM, SECONDS = 214.0, 3


@pytest.mark.parametrize("name", ["fu", "swim"])
def test_strips_are_nearly_as_dense_as_the_engine_reaches_alone(name: str) -> None:
    """Classic instances (ESICUP, CC0) in strips of bed height: within 5 % of spyrrow on one core as ours is."""
    copies = [shapely.Polygon(item.rings[0]) for item in classic_set(name) for _ in range(item.copies)]
    area = sum(float(shape.area) for shape in copies)
    laid = laid_in_strip({k: grown(s, 0.0) for k, s in enumerate(copies)}, HEIGHT_MM, seed=3, budget_s=SECONDS)
    items = [spyrrow.Item(str(k), list(s.exterior.coords)[:-1], 1, None) for k, s in enumerate(copies)]
    config = spyrrow.StripPackingConfig(total_computation_time=SECONDS, seed=3, num_workers=1)
    alone = spyrrow.StripPackingInstance(name, HEIGHT_MM, items).solve(config)

    assert len(laid) == len(copies)
    assert area / (HEIGHT_MM * max(place.far_mm for place in laid)) >= 0.95 * alone.density
