"""Noisy meshes: how noisy they are, and the patches that sharp edges bound in them."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mesh import Solid
from planner.survey.bores.facets import facets_of
from planner.survey.bores.patches import noise_mm, patches_of
from tests.shapes import Manifold, bored_plate, cylinder, solid_of, tube

SIGMA_MM = 0.01


def _shaken(solid: Solid) -> Solid:
    """Return a solid with every vertex moved by normal noise of a known standard deviation in each direction."""
    moved = np.random.default_rng(7).normal(0.0, SIGMA_MM, solid.vertices_mm.shape)
    return Solid(name="shaken", vertices_mm=solid.vertices_mm + moved, faces=solid.faces, sha256="shaken")


def test_a_clean_mesh_has_no_noise() -> None:
    """Whether flat or round: a drawn round bends one way only."""
    for solid in (bored_plate(40, 30, 6, [(20, 15, 8.0, 48)]), tube(20, 10, 8, 96)):
        assert noise_mm(solid, facets_of(solid)) == 0.0


def test_noise_is_told_by_its_standard_deviation() -> None:
    """Normal noise of 0.01 mm on the corners of a finely meshed plate is told within a third (a robust estimate)."""
    solid = _shaken(_fine_plate())

    assert noise_mm(solid, facets_of(solid)) == pytest.approx(SIGMA_MM, rel=1 / 3)


def test_the_wall_of_a_bore_is_a_patch_and_the_flat_walls_are_left_out() -> None:
    """Among the patches of a shaken plate one holds the wall of its bore, and none a face of top or bottom."""
    clean = _fine_plate()
    solid = _shaken(clean)
    patches = patches_of(solid, facets_of(solid), SIGMA_MM)
    wall = np.flatnonzero((np.linalg.norm(clean.corners_mm[:, :, :2] - 15.0, axis=2) < 4.01).all(axis=1))
    flat = np.flatnonzero(np.ptp(clean.corners_mm[:, :, 2], axis=1) < 1e-9)

    assert any(set(wall) <= set(patch) for patch in patches)
    assert not any(set(flat) & set(patch) for patch in patches)


def _fine_plate() -> Solid:
    """Return a bored plate, its triangles refined so that no two corners of a flat face are far apart."""
    body = Manifold.cube((30, 30, 6)) - cylinder(8.0, 20, 48).translate((15, 15, -5))
    return solid_of(body.refine_to_length(2.0))
