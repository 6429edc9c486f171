"""Edges: those that join more than two faces are counted."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mesh.formats.soup import Soup
from planner.mesh.repair.heal import healed
from tests.mesh.repair.soups import volume_of
from tests.shapes import Manifold, solid_of


def test_edges_that_join_more_than_two_faces_are_counted() -> None:
    """Two cubes that share one edge: the sentence gives the number."""
    one, other = solid_of(Manifold.cube((10, 10, 10))), solid_of(Manifold.cube((10, 10, 10)).translate((10, 10, 0)))
    found = healed(
        Soup(
            vertices=np.vstack([one.vertices_mm, other.vertices_mm]),
            faces=np.vstack([one.faces, other.faces + len(one.vertices_mm)]),
        )
    )

    assert volume_of(found) == pytest.approx(2000.0)
    assert not found.faults or "join more than two faces" in found.faults[0]
