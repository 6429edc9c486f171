"""Supports answer loads as statics says."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.loads.part_load import LoadCase, PartLoad, Support, answers_of

PUSH = PartLoad(at_mm=(30.0, 0.0, 0.0), force_n=(0.0, 0.0, 12.0))


def test_two_supports_share_by_the_lever() -> None:
    """12 N at 30 of 40 mm: 3 N and 9 N back, no couples (lever rule, textbook)."""
    found = answers_of([PUSH], [Support(at_mm=(0.0, 0.0, 0.0)), Support(at_mm=(40.0, 0.0, 0.0))])

    assert [one.force_n[2] for one in found] == pytest.approx([-3.0, -9.0], abs=1e-3)
    assert np.abs([one.couple_n_mm for one in found]).max() < 1e-3


def test_a_clamp_takes_the_moment_and_a_pin_does_not() -> None:
    """A clamp answers 360 N mm; a pin about y passes none of it."""
    clamp = answers_of([PUSH], [Support(at_mm=(0.0, 0.0, 0.0))])[0]
    pin = answers_of([PUSH], [Support(at_mm=(0.0, 0.0, 0.0), axis=(0.0, 1.0, 0.0), turns=True)])[0]

    assert clamp.couple_n_mm == pytest.approx((0.0, 360.0, 0.0), abs=1e-3)
    assert pin.couple_n_mm[1] == pytest.approx(0.0, abs=1e-6)


def test_the_greatest_force_stands_for_a_case() -> None:
    """Of several, the largest is told; nothing holds where no support is."""
    small = PartLoad(at_mm=(0.0, 0.0, 0.0), force_n=(1.0, 0.0, 0.0))

    assert LoadCase(pushes=(small, PUSH), answers=(), ways=(), said="").force_n == PUSH.force_n
    assert answers_of([PUSH], []) == ()


def test_bores_on_one_axis_take_no_moment_about_it() -> None:
    """Two lugs whose centres lie apart by rounding: 12 N is shared, and no couple of a billion newtons balances it."""
    lugs = [Support(at_mm=(x, 0.0, z), axis=(0.0, 0.0, 1.0), turns=True) for x, z in ((0.0, -5.0), (1e-14, 5.0))]
    found = answers_of([PartLoad(at_mm=(30.0, 0.0, 0.0), force_n=(0.0, 12.0, 0.0))], lugs)

    assert [one.force_n[1] for one in found] == pytest.approx([-6.0, -6.0], abs=1e-3)
