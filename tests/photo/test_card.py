"""The card's marks: eight with different numbers, inside each other's room, and those of the published set."""

from __future__ import annotations

from itertools import combinations

import shapely

from planner.photo import HIGH_MM, WIDE_MM, black_cells, marks


def test_marks_lie_apart_on_the_card() -> None:
    """Eight squares with white between them, all inside the card."""
    squares = [shapely.Polygon(mark.corners_mm[:, :2]) for mark in marks()]

    assert len({mark.number for mark in marks()}) == len(squares) == 8
    assert min(one.distance(two) for one, two in combinations(squares, 2)) > 10.0
    assert all(shapely.box(0.0, 0.0, WIDE_MM, HIGH_MM).covers(one) for one in squares)


def test_marks_have_a_black_border_and_tell_themselves_apart() -> None:
    """The border is black all round, and no two marks have the same cells."""
    cells = [black_cells(mark.number) for mark in marks()]

    assert all(one[0].all() and one[-1].all() and one[:, 0].all() and one[:, -1].all() for one in cells)
    assert len({one.tobytes() for one in cells}) == 8
