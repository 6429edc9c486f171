"""Points along outlines, and how far a slope moves them within a layer."""

from __future__ import annotations

import numpy as np
import pytest

from planner.gcode.copies.outline_points import CORNER_MM, outline_at
from planner.gcode.copies.piece import Sections
from tests.gcode.plate import WEDGE
from tests.shapes import Manifold, cuboid, solid_of


def test_points_lie_on_the_outline_with_normals_outward() -> None:
    """On a cuboid of 20 x 10 every point is on a side, its normal leads out, no corner is near, and nothing moves."""
    found = outline_at(Sections.of(cuboid(20, 10, 4)), (1.0, 1.1, 1.2))
    middle, half = np.array([10.0, 5.0]), np.array([10.0, 5.0])
    off = np.abs(found.points_mm - middle) - half
    corner = np.linalg.norm(off, axis=1)

    assert np.abs(off.max(axis=1)).max() < 1e-9
    assert np.abs((found.points_mm + 0.01 * found.normals - middle) / half).max(axis=1).min() > 1.0
    assert corner.min() >= CORNER_MM
    assert found.moves_mm.max() < 1e-9


def test_a_slanted_face_moves_its_outline() -> None:
    """The wedge leans in by 5 mm over 5 mm of height (45 degrees): half a layer of 0.2 mm moves its edge by 0.1."""
    found = outline_at(Sections.of(WEDGE), (1.9, 2.0, 2.1))
    slanted = found.points_mm[:, 0] > found.points_mm[:, 0].max() - 1e-6

    assert found.moves_mm[slanted] == pytest.approx(0.1, abs=1e-6)
    assert found.moves_mm[~slanted].min() < 1e-6


def test_a_hole_has_its_normals_into_the_hole() -> None:
    """Outward is away from the solid."""
    framed = solid_of(Manifold.cube((20, 20, 4)) - Manifold.cube((10, 10, 9)).translate((5, 5, -1)))
    found = outline_at(Sections.of(framed), (1.0, 1.1, 1.2))
    away = found.points_mm - 10.0
    hole = np.abs(away).max(axis=1) < 6.0

    assert (np.einsum("ij,ij->i", away, found.normals)[hole] < 0).all()
    assert (np.einsum("ij,ij->i", away, found.normals)[~hole] > 0).all()
