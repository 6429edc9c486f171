"""Stacks of bores: what one pin joins, and what it cannot reach."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.assembly import Claim
from planner.job import Hardware
from planner.mechanism import STILL, Frame
from planner.mechanism.joints.bore_stacks import bore_stacks
from tests.mechanism.range.test_device_bodies import BORE

PIN = Hardware(name="pin", kind="dowel-pin", diameter_mm=3.0, joins=("fork", "arm"))
CLAIMS = (
    Claim(part="fork", bore=BORE, hardware=PIN, fit="held"),
    Claim(part="fork", bore=replace(BORE, id="b2", centre_mm=(0.0, 0.0, 13.5)), hardware=PIN, fit="held"),
    Claim(part="arm", bore=replace(BORE, centre_mm=(0.0, 0.0, 0.0)), hardware=PIN, fit="turning"),
)


def _arm(x: float, z: float) -> dict[str, Frame]:
    """Return fork and arm in place."""
    return {"fork": STILL, "arm": Frame(turn=STILL.turn, shift_mm=np.array([x, 0.0, z]))}


def test_a_fork_and_what_is_in_it_are_one_stack() -> None:
    """Three bores in order along the axis, from 0 to 16 mm; the arm turns on the pin."""
    (stack,) = bore_stacks(CLAIMS, _arm(0.0, 8.0))

    assert [one.copy for one in stack.bores] == ["fork", "arm", "fork"]
    assert stack.pin is PIN
    assert stack.ends_mm == pytest.approx((-2.5, 13.5))
    assert [one.turning for one in stack.bores] == [False, True, False]


def test_bores_beside_or_far_behind_each_other_are_not() -> None:
    """An arm 1 mm aside is on another axis; one 30 mm behind the fork is out of a short pin's reach, not of a long one's.

    The fork's own bores, 11 mm apart, have one pin only where something lies between them, or where it is long.
    """
    assert len(bore_stacks(CLAIMS, _arm(1.0, 8.0))) == 3
    assert len(bore_stacks(CLAIMS, _arm(0.0, 46.0))) == 3
    longer = tuple(replace(claim, hardware=replace(PIN, stack_mm=50.0)) for claim in CLAIMS)
    assert len(bore_stacks(longer, _arm(0.0, 46.0))) == 1
