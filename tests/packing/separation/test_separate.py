"""Separation: what it claims holds before the proof, and what cannot be is not claimed."""

from __future__ import annotations

import pytest
import shapely

from planner.job import Bed, usable_ground
from planner.packing.layout.packed_unit import at_spot
from planner.packing.search.effort import Effort
from planner.packing.separation.separate import Separator
from tests.packing.thrown import Case


@pytest.mark.parametrize("seed", [101, 102, 104])
def test_a_separation_that_claims_success_is_proved(seed: int) -> None:
    """Pieces thrown at random onto two beds: the proof finds no overlap, no margin broken, no copy lost."""
    case = Case(seed, 10)
    found = case.search.separator.apart([{}, {}], range(len(case.units)), seed, Effort(20.0))

    assert found is not None
    assert case.wrong(found) == ()


def test_the_same_seed_gives_the_same_layout() -> None:
    """Rounds are counted, not timed: two runs give the same spots."""
    found = [Case(105, 9).search.separator.apart([{}, {}], range(9), 4, Effort(20.0)) for _ in range(2)]

    assert found[0] is not None
    assert found[0] == found[1]


def test_more_than_a_bed_holds_is_never_claimed() -> None:
    """Outlines of more area than the bed cannot lie apart on it."""
    case = Case(106, 24)

    assert case.search.bound > 1
    assert case.search.separator.apart([{}], range(len(case.units)), 1, Effort(0.02)) is None


@pytest.mark.parametrize(
    "bed",
    [
        Bed(shape="circle", size_mm=(200.0, 200.0), height_mm=100.0, margin_mm=5.0),
        Bed(
            shape="rectangle",
            size_mm=(200.0, 200.0),
            height_mm=100.0,
            margin_mm=5.0,
            zones_mm=(((80.0, 80.0), (110.0, 80.0), (110.0, 115.0), (80.0, 115.0)),),
        ),
    ],
    ids=["circle", "zone"],
)
def test_round_beds_and_zones_in_the_middle_are_kept_clear(bed: Bed) -> None:
    """Everything around the usable ground is fixed: outlines end up on it, the spacing apart (GEOS)."""
    case, ground = Case(102, 3), usable_ground(bed)
    found = Separator(case.units, ground, 2.0).apart([{}], range(len(case.units)), 2, Effort(20.0))
    assert found is not None
    shapes = [at_spot(case.units[k].shape, spot) for k, spot in found[0].items()]

    assert all(ground.buffer(0.05).covers(shape) for shape in shapes)
    assert all(a.distance(b) > 1.95 for i, a in enumerate(shapes) for b in shapes[:i])
    assert len(shapely.union_all(shapes).geoms) == len(case.units)
