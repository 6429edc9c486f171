"""What notches may raise stress to, against Kirsch and Peterson."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from manifold3d import Manifold

from planner.strength.beam.beam_pass import weakest
from planner.strength.beam.cut_forces import cut_at
from planner.strength.beam.ways.notches import (
    BLUNT_MM,
    far_apart,
    inner_edges,
    neuber,
    notch_ratio,
    notches_of,
    section_at,
)
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import cuboid, cylinder, solid_of
from tests.strength.beam.test_beam_pass import SOLID

PLATE = Manifold.cube((90, 30, 5))
BORED = solid_of(PLATE - cylinder(6, 7, 96).translate((50, 15, -1)), "bored")
STEPPED = solid_of(PLATE + Manifold.cube((20, 30, 20)), "stepped")


def _ratio(solid: object) -> float:
    """Return how many times its share a plate of 90 by 30 by 5 may take, pulled or bent at its far end."""
    force = (0.0, 0.0, -9.0) if solid is STEPPED else (90.0, 0.0, 0.0)
    case = known_case([PartLoad(at_mm=(90.0, 15.0, 2.5), force_n=force)], [Support(at_mm=(0.0, 15.0, 2.5))], "90 N")
    found = weakest(solid, (case,), SOLID)
    assert found is not None
    return found.notch_ratio


def test_a_bore_in_a_pulled_plate_is_doubted_by_no_less_than_peterson_has() -> None:
    """A bore of a fifth of the width: 2.5 on the section beside it (Peterson's chart, Heywood's 2 + (1 - d/W)³)."""
    assert 2.0 + (1.0 - 0.2) ** 3 < _ratio(BORED) < 3.0


def test_a_sharp_step_is_doubted_and_a_plain_bar_is_not() -> None:
    """A shoulder with a root of a line's width, r/d = 0.09 and D/d = 4: about 1.8 bent (Peterson, from memory)."""
    assert _ratio(STEPPED) > 1.8
    assert _ratio(cuboid(90, 30, 5)) == 1.0


def test_a_pulled_bar_with_two_notches_comes_within_a_tenth_of_peterson() -> None:
    """Depth 5, root 1, 20 mm left of 30: about 3.4 (Peterson's chart of U notches, from memory)."""
    assert neuber(5.0, 10.0, 1.0) == pytest.approx(3.4, rel=0.1)


def test_a_step_raises_less_than_a_notch_of_its_depth() -> None:
    """Material on one side alone: three quarters of what is over once."""
    left, full = shapely.box(0, 0, 10, 10), shapely.box(0, 0, 10, 16)
    root, out = np.array([5.0, 10.0]), np.array([0.0, 1.0])
    both, step = (notch_ratio(left, [full, other], root, out, 1.0) for other in (full, left))

    assert step - 1.0 == pytest.approx(0.75 * (both - 1.0))
    assert both == pytest.approx(neuber(6.0 - 0.02, 5.0 - 0.01, 1.0 + BLUNT_MM), rel=1e-3)


def test_a_bore_s_facets_tell_its_radius_and_a_corner_has_none() -> None:
    """A bore of 6 mm in 96 facets; the inner corner of a step."""
    assert inner_edges(BORED).radius_mm == pytest.approx(3.0, rel=0.01)
    assert set(inner_edges(STEPPED).radius_mm) == {0.0}
    assert not len(inner_edges(cuboid(9, 9, 9)).radius_mm)


def test_the_inside_of_a_curved_limb_is_told_as_a_curve_and_is_no_notch() -> None:
    """The cut through the bore, as if the limb were curved there: its round sides are left out."""
    cut = cut_at(np.array([50.0, 15.0, 2.5]), np.array([1.0, 0.0, 0.0]))
    assert BORED.manifold is not None
    shape = section_at(BORED.manifold, cut, 0.0)

    assert len(notches_of(BORED, cut, shape, 2.0, curved=False)) >= 2
    assert notches_of(BORED, cut, shape, 2.0, curved=True) == []


def test_places_round_a_shaft_are_taken_all_about_it() -> None:
    """Eight of 96 on a circle of 5 mm lie at least 3 mm apart."""
    turns = np.linspace(0.0, 2.0 * np.pi, 96, endpoint=False)
    points = 5.0 * np.column_stack([np.cos(turns), np.sin(turns)])
    taken = points[far_apart(points, np.arange(96))]

    assert len(taken) == 8
    assert min(np.linalg.norm(taken[n] - taken[k]) for n in range(8) for k in range(n)) > 3.0
