"""A survey: what it answers from its measures."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.survey import Survey, survey
from tests.shapes import Manifold, bored_plate, cylinder, solid_of


@pytest.fixture(name="stepped", scope="module")
def _stepped() -> Survey:
    """Return the survey of a plate with a plain bore and one of two steps."""
    body = Manifold.cube((50, 30, 10)) - cylinder(6, 20, 48).translate((12, 15, -5))
    body -= cylinder(5, 20, 48).translate((36, 15, -5)) + cylinder(10, 20, 48).translate((36, 15, 6))
    return survey(solid_of(body))


def test_the_steps_of_a_bore_are_one_stack_whichever_is_asked(stepped: Survey) -> None:
    """5 and 10 mm belong together, 6 mm stands alone."""
    stacks = {
        bore.drawn_diameter_mm: sorted(one.drawn_diameter_mm for one in stepped.stack_of(bore))
        for bore in stepped.bores
    }

    assert {round(key): [round(one) for one in held] for key, held in stacks.items()} == {
        5: [5, 10],
        10: [5, 10],
        6: [6],
    }


def test_openings_are_counted_against_topology(stepped: Survey) -> None:
    """A plate with two openings has genus two (Euler characteristic -2); a bore less than that is not recognised."""
    without = replace(stepped, bores=tuple(one for one in stepped.bores if round(one.drawn_diameter_mm) != 6))

    assert stepped.handles_n == 2
    assert (stepped.unrecognised_n, without.unrecognised_n) == (0, 1)
    assert replace(without, handles_n=None).unrecognised_n == 0


def test_a_feature_is_named_by_the_size_in_its_file(stepped: Survey) -> None:
    """Before a bore is put back to hardware size that is its drawn size, and afterwards still."""
    bore = stepped.bores[0]

    assert bore.named_mm == bore.drawn_diameter_mm
    assert replace(bore, drawn_diameter_mm=9.0, was_mm=6.0).named_mm == 6.0


def test_the_surface_under_a_wall_is_added_up(stepped: Survey) -> None:
    """Of samples of 1, 2 and 3 mm with 10, 20 and 40 mm2, 30 mm2 are thinner than 3 mm."""
    walls = replace(stepped.walls, thickness_mm=np.array([1.0, 2.0, 3.0]), area_mm2=np.array([10.0, 20.0, 40.0]))

    assert [walls.area_below_mm2(limit) for limit in (0.5, 3.0, 3.5)] == [0.0, 30.0, 70.0]


def test_a_mesh_with_a_fault_left_is_not_sound() -> None:
    """A closed plate is sound."""
    found = survey(bored_plate(20, 20, 4, []))

    assert found.sound
    assert not replace(found, faults=("a hole",)).sound
