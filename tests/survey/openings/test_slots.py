"""Slots, poses and extents of known solids."""

from __future__ import annotations

import pytest

from planner.survey.openings.slots import slots_of
from sample_parts.arm_group import cuff
from sample_parts.solids import slot_outline
from tests.shapes import Manifold, cylinder, solid_of


def test_round_and_square_slots_are_found_once() -> None:
    """Two openings of 26 x 4 mm, one with round ends, give two slots."""
    plate = Manifold.cube((80, 50, 3), True)
    plate -= Manifold.extrude(slot_outline(26, 4, 16), 10).translate((0, 10, -5))
    plate -= Manifold.cube((26, 4, 10), True).translate((0, -10, 0))
    slots = slots_of(solid_of(plate.rotate((20, 30, 40))))

    assert [(s.width_mm, s.length_mm) for s in slots] == [
        pytest.approx((4.0, 26.0), abs=0.01),
        pytest.approx((4.0, 26.0), abs=0.01),
    ]


def test_the_slots_of_a_curved_shell_are_found() -> None:
    """The cuff has four strap slots of 26 mm in its curved wall."""
    lengths = [slot.length_mm for slot in slots_of(solid_of(cuff()))]

    assert lengths == pytest.approx([26.0] * 4, abs=0.05)


def test_a_pocket_an_open_groove_and_a_bore_are_no_slots() -> None:
    """Only what goes through and is closed at both ends is a slot."""
    pocket = Manifold.cube((40, 30, 10)) - Manifold.cube((26, 4, 8)).translate((5, 10, 5))
    groove = Manifold.cube((40, 30, 10)) - Manifold.cube((50, 4, 8)).translate((-5, 10, 5))
    bored = Manifold.cube((40, 30, 10), True) - cylinder(5, 30, 16).translate((0, 0, -15))

    assert [slots_of(solid_of(body)) for body in (pocket, groove, bored)] == [(), (), ()]
