"""The ellipse that points lie on, against ellipses drawn with known axes."""

from __future__ import annotations

import numpy as np
import pytest

from planner.survey.fitted_ellipse import along_ellipse, ellipse_through

TURN = np.array([[0.8, -0.6], [0.6, 0.8]])
CENTRE = np.array([40.0, -7.0])


def _points(first: float, last: float, *, long_mm: float = 30.0, short_mm: float = 20.0) -> np.ndarray:
    """Return points of a turned ellipse between two parameters in radians."""
    t = np.linspace(first, last, 300)
    points: np.ndarray = CENTRE + np.column_stack([long_mm * np.cos(t), short_mm * np.sin(t)]) @ TURN.T
    return points


@pytest.mark.parametrize("last", [2 * np.pi, 4.0])
def test_an_ellipse_and_a_stretch_of_one_give_its_axes(last: float) -> None:
    """Axes of 30 and 20 mm about (40, -7), from the whole and from the part that an open shell shows."""
    found = ellipse_through(_points(0.0, last))

    assert found is not None
    assert found.centre_mm == pytest.approx(CENTRE, abs=1e-6)
    assert np.sort(np.linalg.norm(found.axes_mm, axis=0)) == pytest.approx([20.0, 30.0], rel=1e-6)


def test_ribs_on_the_round_do_not_pull_it() -> None:
    """A tenth of the points stand 3 mm inside: the ellipse is that of the others, and they are told apart."""
    points = _points(0.0, 2 * np.pi)
    points[50:80] -= (points[50:80] - CENTRE) * 0.1
    found = ellipse_through(points)

    assert found is not None
    assert np.sort(np.linalg.norm(found.axes_mm, axis=0)) == pytest.approx([20.0, 30.0], rel=1e-3)
    assert not found.has(points[50:80]).any()


def test_what_fits_too_few_points_is_no_ellipse() -> None:
    """A fifth of the points stand inside: more than walls of slots and ribs may be."""
    points = _points(0.0, 2 * np.pi)
    points[50:110] -= (points[50:110] - CENTRE) * 0.1

    assert ellipse_through(points) is None


def test_a_rectangle_is_no_ellipse() -> None:
    """Points of a rectangle lie on none."""
    side = np.linspace(-1, 1, 75)
    ones = np.ones_like(side)
    points = np.concatenate([np.column_stack(xy) for xy in ((side, ones), (ones, side), (side, -ones), (-ones, side))])

    assert ellipse_through(points * [30.0, 20.0]) is None


def test_the_way_along_it_is_counterclockwise_and_on_it() -> None:
    """From one end of the gap to the other: the quarter that is missing, not the three that are there."""
    points = _points(0.0, 1.5 * np.pi, short_mm=30.0)
    found = ellipse_through(points)
    assert found is not None
    way = along_ellipse(found, points[-1], points[0])

    assert np.linalg.norm(way - CENTRE, axis=1) == pytest.approx(30.0, abs=1e-6)
    assert np.linalg.norm(np.diff(way, axis=0), axis=1).sum() == pytest.approx(30.0 * np.pi / 2, rel=1e-3)
