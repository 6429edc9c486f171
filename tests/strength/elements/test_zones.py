"""Skin and infill: the core is softer, the skin stays solid, and no point of it is missed."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.strength.elements.stiffness_matrix import POINTS
from planner.strength.elements.tetrahedra import tetrahedra_of
from planner.strength.elements.zones import sampled_mm, zone_share
from tests.shapes import cuboid
from tests.strength.small_parts import STUFF

BAR = cuboid(60.0, 8.0, 8.0)


def test_infill_softens_the_core_and_the_skin_stays_solid() -> None:
    """Half the infill is a quarter of the stiffness (Gibson and Ashby 1997); near the surface nothing changes."""
    cells = tetrahedra_of(BAR, 2.0)
    share = zone_share(cells, replace(STUFF, side_mm=1.0, level_mm=1.0, infill_share=0.5))
    at_mm = POINTS @ cells.corners_mm
    depth = np.minimum(at_mm, [60.0, 8.0, 8.0] - at_mm).min(axis=2)

    assert share[depth > 1.01].max() == pytest.approx(0.25)
    assert share[depth < 0.8].min() == 1.0
    assert (zone_share(cells, STUFF) == 1.0).all()


def test_thick_solid_layers_count_by_their_own_thickness() -> None:
    """Contours of 1 mm and solid layers of 3 mm: 2 mm under the top is skin, 2 mm beside a side wall is infill."""
    cells = tetrahedra_of(BAR, 2.0)
    share = zone_share(cells, replace(STUFF, side_mm=1.0, level_mm=3.0, infill_share=0.5))
    x, y, z = np.moveaxis(POINTS @ cells.corners_mm, 2, 0)
    middle = (np.abs(x - 30.0) < 20.0) & (np.abs(y - 4.0) < 2.9)

    assert share[middle & (np.abs(z - 4.0) > 1.6)].min() == 1.0
    assert share[middle & (np.abs(z - 4.0) < 0.9)].max() == pytest.approx(0.25)


@given(st.lists(st.floats(-9.0, 9.0), min_size=9, max_size=9), st.floats(0.3, 3.0))
def test_every_point_of_a_triangle_lies_near_to_a_sample(places: list[float], step_mm: float) -> None:
    """Its corners are samples, and none of its points is farther from one than a step."""
    side = np.array(places).reshape(1, 3, 3)
    found = sampled_mm(side, step_mm)
    inside = np.random.default_rng(1).dirichlet((1.0, 1.0, 1.0), 20) @ side[0]

    assert np.linalg.norm(inside[:, None] - found, axis=2).min(axis=1).max() <= step_mm
    assert {tuple(np.round(at, 6) + 0.0) for at in side[0]} <= {tuple(np.round(at, 6) + 0.0) for at in found}
