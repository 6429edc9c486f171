"""The search for rounds: whole regions first, then parts of what is left; what is taken is taken once."""

from __future__ import annotations

import numpy as np
import pytest

from planner.mesh import Solid
from planner.survey.bores.facets import BEND_RAD, FLAT_RAD, facets_of
from planner.survey.bores.fitted_circles import EXACT
from planner.survey.bores.round_search import RoundSearch
from tests.shapes import Manifold, bored_plate, cuboid, cylinder, solid_of


def _searched(solid: Solid) -> RoundSearch:
    """Return a search that has looked once, for what was drawn exactly."""
    search = RoundSearch(solid, facets_of(solid))
    search.look(EXACT)
    return search


def test_a_bore_is_one_region_and_its_triangles_are_spent() -> None:
    """48 facets of two triangles each bend inward together; once taken, no region is left, and it stands all round."""
    solid = bored_plate(40, 30, 6, [(20, 15, 8.0, 48)])
    facets = facets_of(solid)
    search = RoundSearch(solid, facets)
    gentle = (facets.angle_rad < BEND_RAD) & (facets.concave | (facets.angle_rad < FLAT_RAD))
    before = [len(faces) for faces in search.regions(gentle)]
    search.look(EXACT)

    assert before == [96]
    assert search.regions(gentle) == []
    assert [one.radius_mm for one in search.found] == pytest.approx([4.0])
    assert int((~search.free).sum()) == 96
    assert search.exact()


def test_two_bores_that_cross_are_both_found() -> None:
    """Their walls are one region, and no cylinder as a whole: both are found within it, along x and along y."""
    crossed = Manifold.cube((30, 30, 20), center=True)
    for turned in ((0, 90, 0), (90, 0, 0)):
        crossed -= Manifold.cylinder(60, 4, 4, 64, center=True).rotate(turned)
    search = _searched(solid_of(crossed))
    axes = {int(np.argmax(np.abs(one.axis))) for one in search.found}

    assert axes == {0, 1}
    assert [one.radius_mm for one in search.found] == pytest.approx([4.0] * len(search.found))


def test_what_bends_outward_or_not_at_all_is_not_looked_at() -> None:
    """A cuboid and a rod: no region, nothing found, every triangle still free."""
    for solid in (cuboid(6, 5, 4), solid_of(cylinder(10, 8, 48))):
        search = _searched(solid)

        assert search.found == []
        assert search.free.all()
        assert not search.exact()
