"""Places that take as much as the weakest one are named, each once."""

from __future__ import annotations

import numpy as np

from planner.strength.elements.ties import NAMED_MOST_N, ties_mm

AT_MM = np.array([[0.0, 0, 0], [1.0, 0, 0], [10.0, 0, 0], [10.5, 0, 0], [20.0, 0, 0]])


def test_another_place_within_5_percent_is_a_tie_and_its_neighbour_is_not() -> None:
    """100 at 0, 99 beside it, 96 and 97 at 10, 90 at 20: one tie, at the higher of its two points."""
    assert ties_mm(AT_MM, np.array([100.0, 99.0, 96.0, 97.0, 90.0])) == ((10.5, 0.0, 0.0),)
    assert ties_mm(AT_MM, np.array([100.0, 99.0, 90.0, 90.0, 90.0])) == ()


def test_an_even_stress_names_no_endless_list() -> None:
    """A bar that takes the same all along it."""
    bar = np.column_stack([np.linspace(0.0, 100.0, 500), np.zeros((500, 2))])

    assert len(ties_mm(bar, np.ones(500))) == NAMED_MOST_N
