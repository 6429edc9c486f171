"""Slots lengthened measure what was asked, in their own wall only."""

from __future__ import annotations

import pytest

from planner.finding import Vec3
from planner.mesh import Solid
from planner.rebore.longer_slots import slot_cut
from planner.survey import survey
from sample_parts.solids import slot_outline
from tests.shapes import Manifold, solid_of, tube

TURNS = ((0.0, 0.0, 0.0), (17.0, 33.0, 51.0))


def _body(solid: Solid) -> Manifold:
    """Return a solid's manifold."""
    assert solid.manifold is not None
    return solid.manifold


@pytest.mark.parametrize("turn", TURNS)
def test_a_slot_is_lengthened_and_not_widened(turn: Vec3) -> None:
    """From 16 to 21 mm long in a plate; a plate too short for the matter at its ends is refused."""
    cut = Manifold.extrude(slot_outline(16, 3, 12), 20).translate((0, 0, -10))
    solid = solid_of((Manifold.cube((40, 20, 4), True) - cut).rotate(turn))
    (slot,) = survey(solid).slots
    made = slot_cut(_body(solid), slot, 21.0, 1.35, 1.0)

    assert made is not None
    (again,) = survey(solid_of(made)).slots
    assert again.length_mm == pytest.approx(21.0, abs=0.02)
    assert again.width_mm == pytest.approx(3.0, abs=0.02)
    assert slot_cut(_body(solid), slot, 39.0, 1.35, 1.0) is None


def test_a_slot_in_a_tube_leaves_the_far_wall_alone() -> None:
    """Lengthening a slot along a tube cuts one wall only: two walls would lose twice as much."""
    cut = Manifold.cube((3, 20, 16), True).translate((0, 16, 25))
    solid = solid_of(_body(tube(40, 34, 50)) - cut)
    slot = survey(solid).slots[0]
    made = slot_cut(_body(solid), slot, 22.0, 1.35, 1.0)

    assert made is not None
    assert solid.volume_mm3 - made.volume() == pytest.approx(6 * 3 * 3, rel=0.05)
