"""The tree of boxes round triangles."""

from __future__ import annotations

import numpy as np

from planner.survey.walls.shape import shape_of
from planner.survey.walls.triangle_tree import LEAF_N
from tests.shapes import ball


def test_every_box_holds_what_lies_below_it() -> None:
    """Each triangle is in one leaf, each leaf's box holds its triangles, and each box the two below it."""
    shape = shape_of(ball(20.0, 24))
    tree = shape.tree
    leaves = len(tree.boxes) // 2
    leaf = leaves + np.arange(len(tree.face)) // LEAF_N
    one, other = tree.boxes[2::2], tree.boxes[3::2]

    assert sorted(tree.face.tolist()) == list(range(shape.solid.triangles_n))
    assert (tree.boxes[leaf, None, :3] <= tree.corners).all()
    assert (tree.boxes[leaf, None, 3:] >= tree.corners).all()
    assert (tree.boxes[1:leaves, :3] == np.minimum(one, other)[:, :3]).all()
    assert (tree.boxes[1:leaves, 3:] == np.maximum(one, other)[:, 3:]).all()
