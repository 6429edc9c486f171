"""Fill in stretches, bridges across their span, support out of openings, and both cores with one answer."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.layers import (
    Opening,
)
from planner.layers.lines.fill import fill_lines
from tests.layers.conftest import Estimated
from tests.shapes import Manifold, cylinder, solid_of


def _ring(x0: float, y0: float, x1: float, y1: float) -> np.ndarray:
    return np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]], dtype=float)


def test_fill_goes_round_a_hole_and_not_across_it() -> None:
    """Each side of the hole is a stretch of its own: the way between lines is a pitch, but for the last turn back."""
    lines = fill_lines([_ring(0, 0, 40, 30), _ring(10, 10, 25, 20)[::-1]], 0.4, 0.0)
    ways = np.linalg.norm(lines[1:, 0] - lines[:-1, 1], axis=1)

    assert (ways > 1.0).sum() <= 2
    assert ways[ways <= 1.0].max() == pytest.approx(0.4)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.3, 3.0), st.floats(-90, 90), st.integers(0, 10_000))
def test_stretches_lay_every_line_once(pitch: float, angle: float, seed: int) -> None:
    """In whatever order, the lines cover the area: length times pitch, as a finer grid does (property)."""
    draw = np.random.default_rng(seed)
    turns = np.sort(draw.uniform(0, 2 * np.pi, 14))
    star = np.column_stack([np.cos(turns), np.sin(turns)]) * draw.uniform(15, 40, 14)[:, None]
    x, y = star.T
    area = abs(x @ np.roll(y, -1) - np.roll(x, -1) @ y) / 2
    lines = fill_lines([star], pitch, angle)
    length = np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1)

    assert length.sum() * pitch == pytest.approx(area, rel=0.05, abs=60 * pitch)
    assert len(np.unique(np.round(np.sort(lines.reshape(-1, 4), axis=1), 9), axis=0)) == len(lines)


@pytest.mark.parametrize(("diameter", "filled"), [(5.0, False), (20.0, True)])
def test_support_inside_an_opening_is_told(estimated: Estimated, diameter: float, filled: bool) -> None:
    """A bore with a level axis of 5 mm stays free; one of 20 mm is filled, by no more than its own volume (geometry)."""
    block = Manifold.cube((30, 20, 30), True) - cylinder(diameter, 40, 96).translate((0, 0, -20)).rotate((90, 0, 0))
    axis = np.array([[[0.0, -10.0, 15.0], [0.0, 10.0, 15.0]]])
    found = estimated(solid_of(block), (Opening(name="bore b1", rods_mm=axis, radius_mm=diameter / 2),))

    assert ("bore b1" in found.support_inside_mm3) == filled
    if filled:
        assert 100.0 < found.support_inside_mm3["bore b1"] < math.pi / 4 * diameter**2 * 20


def test_fill_lines_cover_their_area() -> None:
    """Length times pitch equals the area, at any angle, holes left out."""
    ring = np.array([[0, 0], [40, 0], [40, 30], [0, 30.0]])
    hole = np.array([[10, 10], [10, 20], [25, 20], [25, 10.0]])
    for angle in (0.0, 45.0, 30.0, -45.0):
        lines = fill_lines([ring, hole], 0.4, angle)
        length = np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1).sum()
        assert length * 0.4 == pytest.approx(40 * 30 - 15 * 10, rel=0.01)
