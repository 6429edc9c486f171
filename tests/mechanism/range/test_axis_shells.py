"""Shells round an axis: reach of bodies by hand, and pieces that leave nothing out."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.mechanism import STILL
from planner.mechanism.range.axis_shells import along, reach_mm, shells, slabs
from tests.shapes import Manifold, cylinder


def test_the_reach_of_a_box_and_of_a_tube() -> None:
    """A box beside the axis is nearest at its edge's foot; a tube leaves the axis free, a disc does not."""
    box = Manifold.cube((4, 6, 2)).translate((3, -1, 5))
    tube = cylinder(20, 3, 256) - cylinder(10, 9, 256).translate((0, 0, -1))

    assert reach_mm(box, STILL) == pytest.approx((5.0, 7.0, 3.0, math.hypot(7, 5)))
    assert reach_mm(tube, STILL)[2:] == pytest.approx((5.0, 10.0), abs=0.01)
    assert reach_mm(cylinder(20, 3, 64), STILL)[2] == 0.0


@pytest.mark.parametrize("seed", range(3))
def test_pieces_overlap_as_the_whole_bodies_do(seed: int) -> None:
    """About a slanting axis, at any angle, all pieces together share what the bodies share (rims of rings twice), and are as near."""
    rng = np.random.default_rng(seed)
    frame = along(tuple(rng.normal(size=3)), tuple(rng.uniform(-9, 9, 3)))
    one = Manifold.cube((60, 8, 30)).translate(tuple(rng.uniform(-40, 0, 3)))
    other = Manifold.cube((9, 70, 12)).translate(tuple(rng.uniform(-40, 0, 3)))
    pieces = list(shells(one, other, frame, 0.5, (reach_mm(one, frame), reach_mm(other, frame))))

    for deg in rng.uniform(0, 360, 6):
        step = STILL.turned_about(frame.direction((0, 0, 1)), frame.shift_mm, float(deg)).matrix()
        whole = float((one ^ other.transform(step)).volume())
        assert sum(float((a ^ b.transform(step)).volume()) for a, b in pieces) == pytest.approx(
            whole, rel=1e-3, abs=1e-6
        )
        near = min((float(a.min_gap(b.transform(step), 0.5)) for a, b in pieces), default=0.5)
        assert near == pytest.approx(float(one.min_gap(other.transform(step), 0.5)), abs=1e-9)


def test_bodies_at_other_heights_have_no_pieces() -> None:
    """Above each other they cannot meet, nor come nearer than they are; beside each other in height they may."""
    low, high, beside = (Manifold.cube((5, 5, 5)).translate((x, 0, z)) for x, z in ((0, 0), (0, 5.4), (30, 3)))
    reaches = [reach_mm(body, STILL) for body in (low, high, beside)]

    assert list(slabs(low, high, STILL, 0.3, (reaches[0], reaches[1]))) == []
    assert len(list(slabs(low, high, STILL, 0.5, (reaches[0], reaches[1])))) == 1
    assert len(list(slabs(low, beside, STILL, 0.3, (reaches[0], reaches[2])))) == 1
