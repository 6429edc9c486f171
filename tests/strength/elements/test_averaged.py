"""Averages over a line's width: an even stress stays, a single hot point does not decide, and nothing raw is left over."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.elements.averaged import over_a_line

AXIS = np.linspace(-1.0, 1.0, 21)
AT_MM = np.stack(np.meshgrid(AXIS, AXIS, AXIS), axis=-1).reshape(-1, 3)
EVEN = np.ones(len(AT_MM))


def _share(stress: np.ndarray) -> np.ndarray:
    """Return the pull along x as the share."""
    return np.abs(stress[:, 0])


def _over(pull: np.ndarray) -> np.ndarray:
    """Return averaged shares of a pull along x."""
    stress = np.zeros((len(AT_MM), 6))
    stress[:, 0] = pull
    return over_a_line(AT_MM, EVEN, stress, _share(stress), _share, 0.5)[1]


def test_an_even_stress_and_an_even_rise_stay() -> None:
    """In the middle of a body an average of what rises straight is the value there."""
    middle = int(np.flatnonzero((np.abs(AT_MM) < 1e-9).all(axis=1))[0])

    assert _over(40.0 * EVEN) == pytest.approx(40.0)
    assert _over(40.0 + 10.0 * AT_MM[:, 0])[middle] == pytest.approx(40.0)


def test_one_hot_point_does_not_decide_and_no_raw_stress_is_left() -> None:
    """A point of 1000 among 10 weighs little; what was not averaged never counts for more than what was."""
    pull = 10.0 * EVEN
    pull[len(pull) // 2] = 1000.0
    found = _over(pull)

    assert found.max() < 60.0
    assert found.max() == pytest.approx(found[len(pull) // 2])
