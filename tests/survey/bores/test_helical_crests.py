"""Threads with sharp crests, by the edge that winds round."""

from __future__ import annotations

import numpy as np
import pytest

from planner.survey.bores.bores import bores_of
from planner.survey.bores.facets import facets_of
from planner.survey.bores.helical_crests import helical_crests
from tests.shapes import Manifold, cylinder, solid_of
from tests.survey.drawn.drawn_threads import SHARP, rings, wound


def test_a_sharp_crest_leaves_a_cylinder_free() -> None:
    """An edge of 24 chords a turn on a circle of 8 mm, 1.5 mm a turn: clear to the chords, 8 cos(7.5 deg) (geometry)."""
    solid = solid_of(wound(8.0, 9.6, 1.5, 4, 24, SHARP))

    ((crest, pitch),) = helical_crests(solid, facets_of(solid))

    assert 2 * crest.radius_mm == pytest.approx(8.0, abs=1e-3)
    assert 2 * crest.flat_mm == pytest.approx(8.0 * np.cos(np.pi / 24), rel=1e-3)
    assert pitch == pytest.approx(1.5, rel=0.01)
    assert crest.facets_n == 24


def test_a_screw_is_no_bore() -> None:
    """The same helix from outside: its crests look away from the axis."""
    block = Manifold.cube((20, 20, 2.4), True).translate((0, 0, 1.2))

    assert bores_of(solid_of(block - wound(4.134, 5.0, 0.8, 3, profile=SHARP))) == ((), ())


def test_rims_and_rings_wind_round_nothing() -> None:
    """A plain bore has two sharp rims, a square thread of rings one for every side of a groove: none climbs."""
    plain = Manifold.cube((20, 20, 5), True) - cylinder(5.0, 8, 48).translate((0, 0, -4))
    for body in (plain, rings("square", 5.0, 0.8, 8)):
        solid = solid_of(body)
        assert helical_crests(solid, facets_of(solid)) == []
