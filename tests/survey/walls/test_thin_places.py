"""Thin places: each once, thinnest first, with its extents."""

from __future__ import annotations

import pytest

from planner.survey.walls.between_faces import between_faces, samples
from planner.survey.walls.solid_for_walls import shape_of
from planner.survey.walls.thin_places import thin_places
from tests.shapes import Manifold, cuboid, solid_of


def test_two_pockets_are_two_places_with_their_extents() -> None:
    """Pockets of 12 x 10 and 16 x 10 mm leave 1.0 and 2.0 mm of a plate of 8: both floors, each with its area twice."""
    body = Manifold.cube((60, 24, 8)) - Manifold.cube((12, 10, 9)).translate((6, 7, 1.0))
    shape = shape_of(solid_of(body - Manifold.cube((16, 10, 9)).translate((36, 7, 2.0))))
    found = thin_places(shape, between_faces(shape, *samples(shape)), ())

    assert [place.thickness_mm for place in found[:2]] == pytest.approx([1.0, 2.0], rel=1e-6)
    assert (found[0].at_mm[0] < 20, found[1].at_mm[0] > 34) == (True, True)
    for place, (length, breadth) in zip(found[:2], ((12, 10), (16, 10)), strict=True):
        assert place.below[0].area_mm2 == pytest.approx(2 * length * breadth, rel=0.1)
        assert place.below[0].length_mm == pytest.approx(length, abs=1.0)
        assert place.below[0].breadth_mm == pytest.approx(breadth, abs=1.0)
        assert set(place.between.split(" and ")) == {"an inner face facing up", "the lower face"}


def test_a_thick_part_has_one_place_without_extents() -> None:
    """A cube of 20 mm is thin nowhere: its thinnest place is told, how far it reaches is not."""
    shape = shape_of(cuboid(20, 20, 20))
    (place,) = thin_places(shape, between_faces(shape, *samples(shape)), ())

    assert place.thickness_mm == pytest.approx(20.0)
    assert place.below == ()
