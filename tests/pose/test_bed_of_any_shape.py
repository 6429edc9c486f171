"""Clear ground: convex pieces of a bed, each free of zones, and the largest scale on one."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from planner.job import Bed, usable_ground
from planner.pose.bed_of_any_shape import clear_pieces, largest_on

ZONE = ((90.0, 90.0), (130.0, 90.0), (130.0, 130.0), (90.0, 130.0))


def test_pieces_are_convex_and_keep_off_zones() -> None:
    """With a zone in the middle, every piece is convex and lies on the usable bed."""
    bed = Bed(shape="rectangle", size_mm=(220.0, 220.0), height_mm=200.0, margin_mm=5.0, zones_mm=(ZONE,))
    pieces, whole = clear_pieces(bed)

    assert not whole
    assert pieces
    for piece in pieces:
        assert piece.area == pytest.approx(piece.convex_hull.area)
        assert usable_ground(bed).buffer(1e-6).contains(piece)


def test_a_square_on_a_square() -> None:
    """A square of 10 on one of 30 grows three times, whatever way it is drawn (geometry)."""
    square = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])

    assert largest_on(square, shapely.box(0, 0, 30, 30))[0] == pytest.approx(3.0, rel=1e-6)
