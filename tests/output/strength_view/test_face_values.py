"""The stream of shares: unfolded as the page does it, every piece lies where its value was asked."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from planner.output.strength_view.face_values import CUT, painted
from tests.shapes import cuboid

Floats = NDArray[np.float64]
BAR = cuboid(80.0, 10.0, 8.0)


def unfolded(stream: bytes, corners: Floats) -> list[tuple[Floats, int]]:
    """Return pieces and levels: the script's own way, one piece after the other."""
    codes, found = iter(stream), []

    def piece(ends: Floats) -> None:
        code = next(codes)
        if code < CUT:
            found.append((ends, code))
            return
        side, after = code - CUT, (code - CUT + 1) % 3
        for moved in (after, side):
            half = ends.copy()
            half[moved] = (ends[side] + ends[after]) / 2.0
            piece(half)

    for face in corners:
        piece(face)
    assert next(codes, None) is None
    return found


def test_pieces_cover_the_faces_and_carry_their_values() -> None:
    """Twelve large faces under a share that rises along the bar: areas add up, values within 3 % of the most."""
    paint = painted(BAR.corners_mm, lambda places: places[:, 0])
    pieces = unfolded(paint.stream, BAR.corners_mm)
    corners = np.array([ends for ends, _ in pieces])
    areas = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1) / 2.0
    told = (np.array([level for _, level in pieces]) - 1) * paint.step_percent

    assert areas.sum() == pytest.approx(2 * (80 * 10 + 80 * 8 + 10 * 8))
    assert np.abs(told - corners.mean(axis=1)[:, 0]).max() < 0.03 * 80.0
    assert 100 < len(pieces) < 6012


def test_where_nothing_is_told_the_level_is_nothing() -> None:
    """Half of the bar without a figure: level 0 there and nowhere else."""
    paint = painted(BAR.corners_mm, lambda places: np.where(places[:, 0] < 40.0, np.nan, 10.0))
    for ends, level in unfolded(paint.stream, BAR.corners_mm):
        assert (level == 0) == (ends[:, 0].mean() < 40.0)


def test_what_is_alike_stays_in_few_pieces() -> None:
    """One share all over takes a tenth of the bytes of one that changes."""
    even = painted(BAR.corners_mm, lambda places: np.full(len(places), 7.0))
    uneven = painted(BAR.corners_mm, lambda places: np.abs(np.sin(places[:, 0])))

    assert len(even.stream) < len(uneven.stream) / 10
