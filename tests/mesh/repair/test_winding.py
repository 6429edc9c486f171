"""Winding: faces turned round are turned back, and only tiny holes are closed."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.mesh.formats.soup import Soup
from planner.mesh.repair.heal import healed
from tests.mesh.repair.soups import volume_of
from tests.shapes import Manifold, bored_plate, cylinder, solid_of


@settings(max_examples=15)
@given(seed=st.integers(0, 10_000), share=st.floats(0.0, 0.5))
def test_any_faces_turned_round_are_turned_back(seed: int, share: float) -> None:
    """Whatever share of faces is flipped, the volume comes back with its sign."""
    plate = bored_plate(30, 20, 6, [(10, 10, 6, 24), (22, 10, 4, 16)])
    flip = np.random.default_rng(seed).random(plate.triangles_n) < share
    corners = np.where(flip[:, None, None], plate.corners_mm[:, ::-1], plate.corners_mm)
    found = healed(Soup(vertices=corners.reshape(-1, 3), faces=np.arange(3 * len(corners)).reshape(-1, 3)))

    assert not found.faults
    assert volume_of(found) == pytest.approx(plate.volume_mm3)


def test_a_tiny_hole_is_closed_and_a_missing_lid_is_not() -> None:
    """One small triangle missing is repaired and told; a box of 50 mm without its lid stays open."""
    rod = solid_of(cylinder(10, 40, 200))
    small = int(np.argmin(rod.trimesh.area_faces))
    faces = np.delete(rod.faces, small, axis=0)
    box = solid_of(Manifold.cube((50, 50, 50)))
    lidless = box.faces[~(box.corners_mm[:, :, 2] > 49).all(axis=1)]

    closed = healed(Soup(vertices=np.array(rod.vertices_mm), faces=faces))
    left_open = healed(Soup(vertices=np.array(box.vertices_mm), faces=lidless))
    assert closed.faults == ()
    assert any("tiny holes" in line for line in closed.healed)
    assert left_open.faults == ("open at 4 edges",)
