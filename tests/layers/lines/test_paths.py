"""Paths: every line in its order, with travel between lines that do not meet."""

from __future__ import annotations

import numpy as np

from planner.layers.lines.paths import OUTER, SOLID, TRAVEL, Path, begin_layer
from planner.layers.lines.section import Section


def test_lines_apart_are_joined_by_travel() -> None:
    """A square, then two segments: travel leads to the first and between both, never before the very first point."""
    path = Path()
    path.run(np.array([[0.0, 0], [1, 0], [1, 1], [0, 1], [0, 0]]), OUTER)
    path.lay(np.array([[[5.0, 0], [6, 0]], [[6, 1], [5, 1]]]), SOLID)
    kinds = np.concatenate(path.kinds)

    assert kinds.tolist() == [OUTER] * 4 + [TRAVEL, SOLID, TRAVEL, SOLID]
    assert len(np.concatenate(path.points)) == len(kinds) + 1
    assert path.at is not None
    assert path.at.tolist() == [5.0, 1.0]


def test_nothing_to_lay_is_nothing_laid() -> None:
    """No segments and no support leave the path as it was."""
    path = Path()
    path.lay(np.empty((0, 2, 2)), SOLID)
    begin_layer(path, brim=[], support=(Section(), 1.0))

    assert (path.points, path.kinds, path.at) == ([], [], None)
