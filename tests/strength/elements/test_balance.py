"""Loads that hold each other pass; others are refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.strength.elements.balance import refuse_unbalanced
from planner.strength.elements.displacements import UnsolvedError
from planner.strength.elements.nodal_forces import Press

PUSH = Press(at_mm=(60.0, 4.0, 4.0), force_n=(0.0, 0.0, 5.0))
BACK = Press(at_mm=(0.0, 4.0, 4.0), force_n=(0.0, 0.0, -5.0))


def test_loads_that_do_not_balance_are_refused() -> None:
    """A force with nothing against it, and a force with its answer at another place."""
    for loads in ([PUSH], [PUSH, BACK]):
        with pytest.raises(UnsolvedError, match="out of balance"):
            refuse_unbalanced(loads)


def test_a_couple_holds_a_lever() -> None:
    """By hand: 5 N up at 60 mm turns by (0, -300, 0) N mm, which a couple of (0, 300, 0) at the foot holds."""
    refuse_unbalanced([PUSH, replace(BACK, couple_n_mm=(0.0, 300.0, 0.0))])
