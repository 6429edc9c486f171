"""The measure of overlap is zero exactly where outlines are apart."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from planner.packing.layout.packed_unit import Spot
from planner.packing.separation.bed_state import State
from planner.packing.separation.overlap import pair_overlap
from planner.packing.separation.separate import Separator
from tests.packing.part_sets import BED
from tests.packing.thrown import Case


def _pair(state: State) -> float:
    """Return the overlap of the first two outlines."""
    n, poles = state.ends[1], state.pole_ends[1]
    return float(pair_overlap(state, 0, state.at[:n], state.poles_at[:poles], state.boxes[0], 1))


def _ring(state: State, k: int) -> shapely.Polygon:
    """Return an outline where the state has it."""
    return shapely.Polygon(state.at[state.ends[k] : state.ends[k + 1]])


@pytest.mark.parametrize("seed", range(101, 105))
def test_overlap_is_zero_exactly_where_shapely_finds_none(seed: int) -> None:
    """Outside check (GEOS through shapely): 50 random pairs of hooks, frames, wedges and blobs on one bed."""
    case, rng = Case(seed, 8), np.random.default_rng(seed)
    seen = set()
    for _ in range(50):
        a, b = rng.permutation(len(case.units))[:2]
        separator = Separator([case.units[a], case.units[b]], case.search.ground, 4.0)
        spots = [Spot(turn_deg=360 * rng.random(), shift_mm=tuple(40 + 80 * rng.random(2))) for _ in range(2)]
        state, _ = separator.state([dict(enumerate(spots))], (), 1)
        area = _ring(state, 0).intersection(_ring(state, 1)).area
        if 0.0 < area < 1e-6:
            continue

        assert (_pair(state) == 0.0) == (area == 0.0)
        seen.add(area == 0.0)
    assert seen == {True, False}


def test_what_lies_within_another_overlaps_and_deeper_is_more() -> None:
    """No rings cross where one lies in the other: it overlaps still, and the less the further it is out."""
    case = Case(101, 8)
    large, small = max(case.units, key=lambda u: u.area_mm2), min(case.units, key=lambda u: u.area_mm2)
    separator = Separator([large, small], shapely.box(0, 0, *BED.size_mm), 0.0)
    middle = large.shape.representative_point()
    measures = []
    for by in (0.0, 15.0, 30.0, 120.0):
        at = small.shape.representative_point()
        spots = {
            0: Spot(turn_deg=0.0, shift_mm=(60.0, 90.0)),
            1: Spot(turn_deg=0.0, shift_mm=(60 + middle.x - at.x + by, 90.0 + middle.y - at.y)),
        }
        measures.append(_pair(separator.state([spots], (), 1)[0]))

    assert measures[0] > 0.0
    assert measures == sorted(measures, reverse=True)
    assert measures[-1] == 0.0
