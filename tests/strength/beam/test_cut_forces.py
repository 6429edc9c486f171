"""What a cut carries is what acts beyond it."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.beam.cut_forces import beyond, cut_at, summed
from planner.strength.loads.part_load import PartLoad, Support, answers_of


def test_both_sides_of_a_cut_say_the_same() -> None:
    """10 N at the end of 40 mm: 10 N and 300 N mm at 10 mm from the wall; the wall's side gives the opposite."""
    push = PartLoad(at_mm=(40.0, 0.0, 0.0), force_n=(0.0, 10.0, 0.0))
    every = [push, *answers_of([push], [Support(at_mm=(0.0, 0.0, 0.0))])]
    at = np.array([10.0, 0.0, 0.0])
    right, left = cut_at(at, np.array([2.0, 0.0, 0.0])), cut_at(at, np.array([-1.0, 0.0, 0.0]))
    force, moment = summed(right, beyond(right, every), at)

    assert right.axes.T @ moment == pytest.approx([0.0, 0.0, 300.0])
    assert right.axes.T @ force == pytest.approx([0.0, 10.0, 0.0])
    assert left.axes.T @ summed(left, beyond(left, every), at)[1] == pytest.approx([0.0, 0.0, -300.0])


def test_axes_of_a_cut_are_right_handed() -> None:
    """Two in the plane, then the normal, whichever way it goes."""
    for way in ([1.0, 0.0, 0.0], [0.3, -2.0, 1.0], [0.0, 0.0, -1.0]):
        assert np.linalg.det(cut_at(np.zeros(3), np.array(way)).axes) == pytest.approx(1.0)
