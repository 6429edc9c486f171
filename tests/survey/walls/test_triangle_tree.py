"""The tree of boxes round triangles."""

from __future__ import annotations

import numpy as np

from planner.survey.walls.solid_for_walls import shape_of
from planner.survey.walls.triangle_tree import LEAF_N, reaching
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


def test_what_reaches_into_a_box_is_what_its_own_box_says() -> None:
    """For boxes inside, across, around and beside a ball: the triangles whose least and most coordinates meet it."""
    shape = shape_of(ball(20.0, 48))
    low, high = shape.solid.corners_mm.min(axis=1), shape.solid.corners_mm.max(axis=1)
    found = []
    for middle, half in (((0, 0, 0), 3.0), ((0, 0, 10), 2.0), ((7, 0, 7), 1.0), ((0, 0, 0), 30.0), ((30, 0, 0), 5.0)):
        box = np.array(middle) - half, np.array(middle) + half
        by_hand = np.flatnonzero(((low <= box[1]) & (high >= box[0])).all(axis=1))
        found.append(len(by_hand))

        assert reaching(shape.tree, *box).tolist() == by_hand.tolist()

    assert found[0] == found[4] == 0 < found[2] < found[1] < found[3] == shape.solid.triangles_n
