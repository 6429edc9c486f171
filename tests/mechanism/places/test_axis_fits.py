"""Axes laid on axes: one by the least turn, two as they lie to each other, and stacks face on face or nested."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.mechanism.places.axis_fits import Axis, apart_mm, one_axis, pairs, stacked, two_axes
from planner.mechanism.places.frame import STILL
from planner.survey import Bore
from tests.rules.fit.bores.test_bore_tight import BORE


def _bore(x: float, y: float, z: float, depth_mm: float = 8.0) -> Bore:
    """Return an upright bore with its middle at a place."""
    return replace(BORE, centre_mm=(x, y, z), depth_mm=depth_mm)


def _axis(*bores: Bore) -> Axis:
    """Return an axis of bores for one screw."""
    return Axis(hardware="screw", bores=bores, owners=("a",))


@pytest.mark.parametrize("sense", [1, -1])
def test_one_axis_is_laid_on_another(sense: int) -> None:
    """Point on point and direction on direction, in its sense or against it, by a rotation (determinant 1)."""
    lying = Axis(hardware="screw", bores=(replace(_bore(5, 5, 5), axis=(1.0, 0.0, 0.0)),), owners=("b",))
    frame = one_axis(_axis(_bore(1, 2, 3)), lying, sense)

    assert frame.point((1, 2, 3)) == pytest.approx((5, 5, 5))
    assert frame.direction((0, 0, 1)) == pytest.approx((sense, 0, 0))
    assert np.linalg.det(frame.turn) == pytest.approx(1.0)


def test_two_axes_fit_where_they_are_as_far_apart() -> None:
    """30 mm on 30.2 mm lies with its middle on the other's; 30 on 31 does not, nor do axes that are not parallel."""
    mine = (_axis(_bore(0, 0, 4)), _axis(_bore(30, 0, 4)))
    near, far = _axis(_bore(100, 30.2, 4)), _axis(_bore(100, 31, 4))
    slanting = _axis(replace(_bore(100, 30, 4), axis=(1.0, 0.0, 0.0)))
    frame = two_axes(mine, (_axis(_bore(100, 0, 4)), near), 1)

    assert frame is not None
    assert frame.point((15, 0, 4))[:2] == pytest.approx((100, 15.1))
    assert two_axes(mine, (_axis(_bore(100, 0, 4)), far), 1) is None
    assert two_axes(mine, (_axis(_bore(100, 0, 4)), slanting), 1) is None


def test_the_farthest_axes_fix_a_piece_best() -> None:
    """Of three axes at 0, 10 and 40 mm the first and the last come first."""
    axes = [_axis(_bore(x, 0, 0)) for x in (0.0, 10.0, 40.0)]

    assert apart_mm(axes[0], axes[2]) == pytest.approx(40.0)
    assert list(pairs(axes)) == [(0, 2), (1, 2), (0, 1)]


def test_a_piece_is_stacked_face_on_face_or_in_the_middle_of_a_gap() -> None:
    """A link of 8 mm between lugs 10 mm apart lies in the middle of their gap; beside them it lies on either face."""
    lugs = _axis(_bore(0, 0, 4), _bore(0, 0, 22))  # from 0 to 8 and from 18 to 26
    link = _axis(_bore(0, 0, 4))
    ways = [(nested, frame.point((0, 0, 4))[2]) for nested, frame in stacked(link, lugs, STILL)]

    assert [nested for nested, _ in ways] == [True, False, False]
    assert [along for _, along in ways] == pytest.approx([13.0, -4.0, 30.0])
