"""Healing: what is unambiguous is repaired so that the numbers are right, the rest is named."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mesh.formats.soup import Soup
from planner.mesh.repair.heal import healed
from tests.shapes import Manifold, solid_of


def test_points_that_nothing_uses_have_no_say_in_the_size() -> None:
    """A stray vertex far away changes nothing."""
    cube = solid_of(Manifold.cube((10, 10, 10)))
    found = healed(Soup(vertices=np.vstack([cube.vertices_mm, [[500.0, 0, 0]]]), faces=np.array(cube.faces)))

    assert np.ptp(found.vertices, axis=0) == pytest.approx([10, 10, 10])
