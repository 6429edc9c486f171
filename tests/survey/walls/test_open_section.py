"""Sections of meshes that are not closed, against those of the same mesh closed."""

from __future__ import annotations

import numpy as np
import pytest

from planner.survey.walls.open_section import open_section_mm2
from tests.shapes import Manifold, bored_plate, solid_of


def test_a_section_closes_though_the_mesh_does_not() -> None:
    """A plate of 60 x 40 mm with a bore of 48 sides, its seams 2e-5 mm open and a facet of its top gone."""
    plate = bored_plate(60, 40, 8, [(10, 12, 6, 48)])
    corners = plate.corners_mm + np.random.default_rng(2).uniform(-2e-5, 2e-5, (len(plate.faces), 1, 3))
    top = int(np.argmin(np.abs(corners[:, :, 2].mean(axis=1) - 8.0)))
    torn = np.delete(corners, top, axis=0) - np.array([30.0, 20.0, 0.0])
    bore_mm2 = 48 / 2 * 9.0 * np.sin(2 * np.pi / 48)

    assert open_section_mm2(torn, 4.0) == pytest.approx(60 * 40 - bore_mm2, rel=1e-3)
    assert open_section_mm2(torn, 9.0) == 0.0
    assert open_section_mm2(torn - np.array([0.0, 200.0, 0.0]), 4.0) == 0.0


def test_only_the_piece_about_the_place_counts() -> None:
    """Two bars side by side (manifold3d cuts them): the section of the one that holds the origin."""
    bars = Manifold.cube((4, 5, 10), True) + Manifold.cube((8, 8, 10), True).translate((20, 0, 0))
    corners = solid_of(bars).corners_mm
    pieces = sorted(float(piece.area()) for piece in bars.slice(1.0).decompose())

    assert open_section_mm2(corners, 1.0) == pytest.approx(pieces[0])
    assert open_section_mm2(corners - np.array([20.0, 0.0, 0.0]), 1.0) == pytest.approx(pieces[1])
