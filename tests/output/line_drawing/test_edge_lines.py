"""Which edges of a solid are lines of its drawing, and how lines are joined."""

from __future__ import annotations

import numpy as np
import pytest

from planner.output.line_drawing.edge_lines import chained, mesh_edges
from tests.shapes import cuboid


def test_a_cuboid_has_its_twelve_edges() -> None:
    """The diagonals of its faces are edges of the mesh, and no lines."""
    edges = mesh_edges(cuboid(30, 20, 10))
    assert len(edges.pairs) == 18
    assert int(edges.sharp.sum()) == 12


def test_lines_that_meet_become_one() -> None:
    """Three stretches of a straight line and one across are an angle of three points, whatever their order."""
    lines = np.array([[2.0, 0, 3, 0], [0, 0, 1, 0], [1, 0, 2, 0], [3, 4, 3, 0]])
    (chain,) = chained(lines, 0.05)
    ends = {tuple(chain[0]), tuple(chain[-1])}
    assert len(chain) == 3
    assert ends == {(0.0, 0.0), (3.0, 4.0)}
    assert chain[1] == pytest.approx([3.0, 0.0])
