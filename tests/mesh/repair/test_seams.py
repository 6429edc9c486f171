"""Seams: corners that are one point become one."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.mesh.formats.soup import Soup
from planner.mesh.repair.heal import healed
from tests.mesh.repair.soups import volume_of
from tests.shapes import bored_plate


@settings(max_examples=15)
@given(seed=st.integers(0, 10_000), digits=st.sampled_from([1e-6, 5e-6, 3e-5]))
def test_seams_of_rounded_corners_close(seed: int, digits: float) -> None:
    """Every triangle's corners off by some 1e-5 of the size, each its own way: the surface closes again."""
    plate = bored_plate(30, 20, 6, [(10, 10, 6, 24), (22, 10, 4, 16)])
    corners = plate.corners_mm + np.random.default_rng(seed).uniform(-digits, digits, (plate.triangles_n, 3, 3)) * 30
    found = healed(Soup(vertices=corners.reshape(-1, 3), faces=np.arange(3 * len(corners)).reshape(-1, 3)))

    assert not found.faults
    assert volume_of(found) == pytest.approx(plate.volume_mm3, rel=1e-3)
