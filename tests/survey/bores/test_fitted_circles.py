"""Circles and axes fitted to corners, against prisms drawn with known ones."""

from __future__ import annotations

import numpy as np
import pytest

from planner.survey.bores.fitted_circles import COARSE, EXACT, circle_among, fitted, neighbours_of, noisy

RADIUS_MM = 2.5
N = 32


def _corners(lean_deg: float = 0.0, *, n: int = N) -> tuple[np.ndarray, np.ndarray]:
    """Return the corners of an n-sided prism about an axis that leans, and that axis."""
    t = np.arange(n) * 2 * np.pi / n
    ring = np.column_stack([RADIUS_MM * np.cos(t), RADIUS_MM * np.sin(t), np.zeros(n)])
    lean = np.radians(lean_deg)
    turn = np.array([[np.cos(lean), 0, np.sin(lean)], [0, 1, 0], [-np.sin(lean), 0, np.cos(lean)]])
    return np.concatenate([ring, ring + np.array([0, 0, 8.0])]) @ turn.T + [7.0, 3.0, 1.0], turn[:, 2]


@pytest.mark.parametrize("n", [6, 8, 32])
def test_corners_of_a_prism_give_its_radius_and_axis(n: int) -> None:
    """Through the corners, hexagons too: 2.5 mm about (7, 3)."""
    points, axis = _corners(n=n)
    found = fitted(points, axis, EXACT)

    assert found is not None
    assert found.radius_mm == pytest.approx(RADIUS_MM, abs=1e-6)
    assert found.centre[:2] == pytest.approx([7.0, 3.0], abs=1e-6)


def test_an_axis_that_is_a_little_off_is_turned_to_suit_the_corners() -> None:
    """Asked along z, the prism that leans by half a degree gives its own axis, and its own radius."""
    points, axis = _corners(0.5)
    found = fitted(points, np.array([0.0, 0.0, 1.0]), COARSE)

    assert found is not None
    assert np.degrees(np.arccos(min(1.0, abs(float(found.axis @ axis))))) < 0.02
    assert found.radius_mm == pytest.approx(RADIUS_MM, abs=1e-3)


def test_a_round_holds_its_corners_and_flats_and_nothing_else() -> None:
    """A corner, the middle of a flat, but neither the axis nor a place half a millimetre outside."""
    points, axis = _corners(n=8)
    found = fitted(points, axis, EXACT)
    assert found is not None
    asked = np.array([points[0], (points[0] + points[1]) / 2, [7.0, 3.0, 1.0], points[0] + [0.5, 0, 0]])

    assert found.holds(asked).tolist() == [True, True, False, False]


def test_corners_that_scatter_need_slack() -> None:
    """With a standard deviation of 0.03 mm the slack is 3.5 of it, and the radius is right within a third of it."""
    points, axis = _corners(n=64)
    points = points + np.random.default_rng(7).normal(0.0, 0.03, points.shape)
    found = fitted(points, axis, noisy(0.03), hull=False)

    assert noisy(0.03).least_mm == pytest.approx(0.105)
    assert found is not None
    assert found.radius_mm == pytest.approx(RADIUS_MM, abs=0.01)


def test_too_few_corners_are_no_circle() -> None:
    """Three corners lie on a circle by chance."""
    assert fitted(_corners()[0][:3], np.array([0.0, 0.0, 1.0]), EXACT) is None


@pytest.mark.parametrize("near", [True, False])
def test_a_row_that_is_nearly_straight_is_no_circle(near: bool) -> None:
    """Forty corners in a row, 0.02 mm off at most: alone they give none, and beside an arc of 3 mm the arc is found.

    Of a wide enough circle they would all lie within the slack, which grows with the radius.
    """
    x = np.linspace(0.0, 40.0, 40)
    row = np.column_stack([x, 0.02 * np.sin(x)])
    turn = np.linspace(0.0, 2.0, 24)
    arc = np.column_stack([60.0 + 3.0 * np.cos(turn), 3.0 * np.sin(turn)])
    both = np.concatenate([row, arc])
    found = circle_among(both, COARSE, seed=1, near=neighbours_of(both) if near else None)

    assert circle_among(row, COARSE, seed=1, near=neighbours_of(row) if near else None) is None
    assert found is not None
    assert found[1] == pytest.approx(3.0, rel=0.02)
    assert found[2].tolist() == [False] * 40 + [True] * 24
