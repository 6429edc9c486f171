"""Planar facets: what is flat is one, and every bend knows its angle and its side."""

from __future__ import annotations

import numpy as np
import pytest

from planner.survey.bores.facets import distinct, facets_of, members, pieces
from tests.shapes import cuboid, cylinder, solid_of, tube


def test_a_cuboid_has_six_facets_that_meet_at_right_angles_and_bend_outward() -> None:
    """Twelve triangles and eighteen edges (Euler, 8 - 18 + 12 = 2): six diagonals are flat, twelve bend by 90 degrees."""
    facets = facets_of(cuboid(6, 5, 4))
    bent = facets.angle_rad > 0.01

    assert (facets.n, len(facets.pairs), int(bent.sum())) == (6, 18, 12)
    assert np.degrees(facets.angle_rad[bent]) == pytest.approx(90.0)
    assert not facets.concave[bent].any()


def test_the_wall_of_a_bore_bends_inward_and_that_of_a_boss_outward() -> None:
    """Between two of n sides the turn is 360 / n degrees (geometry): 7.5 within a bore of 48, 15 about a rod of 24."""
    bore, rod = facets_of(tube(20, 10, 8, 48)), facets_of(solid_of(cylinder(20, 8, 24)))
    inner = bore.concave & (bore.angle_rad > 0.01)
    round_about = (rod.angle_rad > 0.01) & (rod.angle_rad < 1.0)

    assert int(inner.sum()) == 48
    assert np.degrees(bore.angle_rad[inner]) == pytest.approx(360.0 / 48)
    assert np.degrees(rod.angle_rad[round_about]) == pytest.approx(360.0 / 24)
    assert not rod.concave[round_about].any()


def test_every_triangle_of_a_closed_mesh_is_in_three_pairs() -> None:
    """Each side of a triangle has a neighbour, and the table finds it among the pairs."""
    facets = facets_of(cuboid(6, 5, 4))

    assert (facets.pairs_of >= 0).all()
    for face, pairs in enumerate(facets.pairs_of):
        assert all(face in facets.pairs[pair] for pair in pairs)


def test_links_make_pieces() -> None:
    """0-1-2 hang together, 3 stands alone: two pieces, the lowest number first."""
    found = members(pieces(np.array([[0, 1], [1, 2]]), 4))

    assert [piece.tolist() for piece in found] == [[0, 1, 2], [3]]


@pytest.mark.parametrize("below", [10, 1000])
def test_distinct_numbers_are_sorted_without_those_below_nought(below: int) -> None:
    """By marking where the numbers are many for their range, and by sorting where they are few: the same."""
    assert distinct(np.array([7, -1, 3, 7, 0]), below).tolist() == [0, 3, 7]
