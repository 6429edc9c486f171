"""Two bodies that move on each other: gaps and overlaps of boxes, by hand."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mechanism.places.frame import STILL, Frame
from planner.mechanism.range.two_bodies import SEARCH_MM, Meeting
from tests.shapes import Manifold

CUBE = Manifold.cube((10, 10, 10))


def _met(gap_mm: float, **more: object) -> Meeting:
    """Return two cubes of 10 mm side by side along x."""
    other = CUBE.translate((10 + gap_mm, 0, 0))
    return Meeting(names=("a", "b"), groups=(0, 1), one=CUBE, other=other, **more)  # type: ignore[arg-type]


def _by(x_mm: float) -> Frame:
    """Return a move along x."""
    return Frame(turn=np.eye(3), shift_mm=np.array([x_mm, 0.0, 0.0]))


@pytest.mark.parametrize(("step_mm", "gap_mm"), [(0.0, 0.4), (-0.3, 0.1), (0.3, 0.7), (5.0, 1.0), (-0.5, 0.0)])
def test_the_gap_after_a_step_is_that_of_the_faces(step_mm: float, gap_mm: float) -> None:
    """0.4 mm apart at rest: a step changes the gap by itself, up to the length that is searched; met, it is 0."""
    assert _met(0.4).gap_mm(_by(step_mm), SEARCH_MM) == pytest.approx(gap_mm, abs=1e-6)


def test_nearer_at_rest_than_the_clearance_is_no_stop() -> None:
    """Asked for 0.5 mm, bodies drawn 0.4 mm apart must keep 98 % of that; those drawn farther keep what is asked."""
    assert _met(0.4).clearance_mm(0.5) == pytest.approx(0.98 * 0.4)
    assert _met(0.8).clearance_mm(0.5) == 0.5
    assert _met(0.0).clearance_mm(0.5) == 0.0


def test_bodies_that_touch_are_stopped_by_matter_alone() -> None:
    """Face on face they touch; 0.5 mm into each other they overlap by a slab of 10 x 10 x 0.5 mm, apart they do not."""
    met = _met(0.0)
    slab = met.overlap(_by(-0.5))

    assert met.touching
    assert slab is not None
    assert slab.volume() == pytest.approx(50.0)
    assert met.overlap(STILL) is None
    assert met.overlap(_by(-0.005)) is None  # 0.01 mm of overlap is facets sliding on facets
    assert met.gap_mm(_by(-0.5), 1.0) == 0.0
    assert met.place_mm([STILL, _by(-0.5)]) == pytest.approx((9.75, 5.0, 5.0))


def test_what_is_shared_by_the_bearing_is_no_overlap() -> None:
    """Cubes drawn 1 mm into each other where their bearing lies overlap no more than at rest."""
    bearing = Manifold.cube((2, 10, 10)).translate((8.5, 0, 0))

    assert _met(-1.0, bearing=bearing).overlap(_by(-0.1)) is None
    assert _met(-1.0).overlap(_by(-0.5)) is not None


def test_no_point_goes_farther_than_the_farthest_corner() -> None:
    """A quarter turn about z moves the corner at (20.4, 10) by sqrt(2) times its distance from the axis."""
    turned = STILL.turned_about(np.array([0.0, 0.0, 1.0]), np.zeros(3), 90.0)

    assert _met(0.4).travel_mm(STILL, turned) == pytest.approx(np.sqrt(2) * np.hypot(20.4, 10.0))


@pytest.mark.parametrize(("gap_mm", "sunk"), [(-0.5, True), (-0.03, False), (0.0, False), (0.4, False)])
def test_bodies_drawn_half_a_millimetre_into_each_other_cannot_both_stand_there(gap_mm: float, *, sunk: bool) -> None:
    """A slab of 10 x 10 x 0.5 mm is matter in matter; one of 0.03 mm is facets, and what touches is free."""
    assert _met(gap_mm).sunk is sunk
    assert not _met(gap_mm, soft=True).sunk
