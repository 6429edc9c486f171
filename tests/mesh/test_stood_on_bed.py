"""Standing, turning, scaling and mirroring: copies that keep what they must."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.mesh import placed, posed, turning
from tests.shapes import Manifold, solid_of

PART = solid_of(Manifold.cube((10, 20, 30)) + Manifold.cube((5, 5, 40)))
UNIT = st.tuples(*(st.floats(-1, 1) for _ in range(3))).filter(lambda v: sum(x * x for x in v) > 0.01)


@given(down=UNIT)
def test_the_chosen_direction_faces_down(down: tuple[float, float, float]) -> None:
    """The turning is a rotation that brings the direction to (0, 0, -1), also for straight up."""
    matrix = turning(down)

    assert matrix @ (np.array(down) / np.linalg.norm(down)) == pytest.approx([0, 0, -1], abs=1e-6)
    assert np.linalg.det(matrix) == pytest.approx(1.0)


@pytest.mark.parametrize("off", [1e-3, 2e-6, 1.5e-6, 1e-7, 1e-9, 1e-11, 1e-13, 0.0])
def test_a_turning_stays_a_rotation_close_to_straight_up(off: float) -> None:
    """The matrix times its transpose is the identity (the definition of a rotation), however close to a half turn."""
    matrix = turning((0.0, off, 1.0))

    assert np.abs(matrix @ matrix.T - np.eye(3)).max() < 1e-12
    assert matrix @ (np.array([0.0, off, 1.0]) / np.hypot(off, 1.0)) == pytest.approx([0, 0, -1], abs=1e-11)


@given(down=UNIT)
def test_a_posed_solid_stands_on_the_bed_and_keeps_its_volume(down: tuple[float, float, float]) -> None:
    """It stands on z = 0, its box centred, its volume unchanged."""
    standing = posed(PART, down)
    low, high = standing.bounds_mm

    assert low[2] == pytest.approx(0.0, abs=1e-9)
    assert (low + high)[:2] == pytest.approx([0, 0], abs=1e-9)
    assert standing.volume_mm3 == pytest.approx(PART.volume_mm3)


@given(s=st.floats(0.2, 3.0))
def test_volume_grows_with_the_cube_of_the_scale(s: float) -> None:
    """Scaling multiplies lengths by s, areas by s2 and volumes by s3 (geometry)."""
    scaled = PART.scaled(s)

    assert scaled.volume_mm3 == pytest.approx(PART.volume_mm3 * s**3)
    assert scaled.area_mm2 == pytest.approx(PART.area_mm2 * s**2)


def test_a_mirrored_solid_keeps_its_winding_outward() -> None:
    """Mirroring keeps the volume positive, and doing it twice gives the part back."""
    mirrored = PART.mirrored()

    assert mirrored.volume_mm3 == pytest.approx(PART.volume_mm3)
    assert mirrored.mirrored().vertices_mm == pytest.approx(PART.vertices_mm)
    assert mirrored.bounds_mm[0, 0] == pytest.approx(-PART.bounds_mm[1, 0])


def test_a_placed_solid_has_its_box_where_it_was_asked_for() -> None:
    """The middle of the turned box lies at (x, y)."""
    low, high = placed(PART, 50.0, 60.0, 30.0).bounds_mm

    assert (low + high)[:2] / 2 == pytest.approx([50.0, 60.0])
