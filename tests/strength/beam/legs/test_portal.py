"""Legs between joined ends under torsion: by hand, and against elements (solved once, 2 mm edges, here in figures)."""

from __future__ import annotations

import manifold3d
import numpy as np
import pytest
import shapely

from planner.strength.beam.beam_pass import KNOTS, Weakest, weakest
from planner.strength.beam.legs.portal import Legs, portal_of
from planner.strength.beam.skin_and_core import zones_of
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import solid_of
from tests.strength.beam.legs.test_side_by_side import STUFF

TWO = zones_of(shapely.MultiPolygon([shapely.box(-20, -2, -16, 2), shapely.box(16, -2, 20, 2)]), 99.0, 1.0)


def _twisted(long_mm: float, wide_mm: float, end_mm: float, thick_mm: float) -> Weakest:
    """Return the weakest cut of a frame with legs of 4 mm, twisted by 200 N mm from end to end."""
    window = manifold3d.Manifold.cube((long_mm - 2 * end_mm, wide_mm - 8.0, 99.0)).translate((end_mm, 4.0, -9.0))
    frame = solid_of(manifold3d.Manifold.cube((long_mm, wide_mm, thick_mm)) - window)
    ends = [(x, wide_mm / 2, thick_mm / 2) for x in (end_mm / 2, long_mm - end_mm / 2)]
    push = PartLoad(at_mm=ends[1], force_n=(0.0, 0.0, 0.0), couple_n_mm=(200.0, 0.0, 0.0))
    found = weakest(frame, (known_case([push], [Support(at_mm=ends[0])], "twisted"),), STUFF)
    assert found is not None
    return found


def test_short_legs_far_apart_bend_and_hardly_twist() -> None:
    """By hand: legs of 4 x 4 over 12 mm, 36 mm apart: 1 N mm is 1/36 N on each, times 6 mm, over 10.67 mm³: 0.0156 MPa."""
    portal = portal_of(TWO, Legs(0.0, 12.0, 8.0))

    assert portal is not None
    assert portal.corner_mpa == pytest.approx(np.full(4, 6.0 / 36.0 / (64.0 / 6.0)), rel=0.03)
    assert portal.twist_share < 0.3


def test_long_legs_twist_and_thin_ends_tell_nothing() -> None:
    """At 400 mm nearly all is torsion; with an end thinner than a leg, or none, torsion takes all as before."""
    long = portal_of(TWO, Legs(0.0, 400.0, 8.0))

    assert long is not None
    assert long.twist_share > 0.95
    assert portal_of(TWO, Legs(0.0, 12.0, 3.9)) is None
    assert portal_of(TWO, Legs()) is None
    assert portal_of(zones_of(shapely.box(0, 0, 4, 4), 99.0, 1.0), Legs(0.0, 12.0, 8.0)) is None


@pytest.mark.filterwarnings("error")
def test_a_leg_in_the_middle_neither_bends_nor_says_that_it_does_not_know() -> None:
    """By hand: a third leg on the axis has no arm; by symmetry its corners keep what they had, and all are numbers."""
    middle, tall = shapely.box(-2, -9, 2, 9), shapely.MultiPolygon(TWO.whole)
    portal = portal_of(zones_of(shapely.union_all([*tall.geoms, middle]), 99.0, 1.0), Legs(0.0, 20.0, 18.0))

    assert portal is not None
    assert sorted(portal.corner_mpa)[:4] == pytest.approx([0.0] * 4)
    assert max(portal.corner_mpa) > 0.0


@pytest.mark.parametrize(
    ("frame", "legs_percent", "corners_percent"),
    [((28, 40, 8, 4), 7.0, 11.6), ((40, 40, 12, 4), 8.6, 8.6), ((60, 30, 8, 5), 15.8, 15.8)],
)
def test_a_twisted_frame_takes_what_elements_say_and_not_many_times_that(
    frame: tuple[float, float, float, float], legs_percent: float, corners_percent: float
) -> None:
    """Share of 40 MPa by elements, in the legs and at their corners: at least that, and at most twice the legs'."""
    found = _twisted(*frame)
    share = found.share_percent[KNOTS.index(1.0)]

    assert corners_percent <= share <= 2.0 * legs_percent
    assert found.legs_ratio == pytest.approx(1.0)
