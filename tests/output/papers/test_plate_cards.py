"""Plate cards: everything that a person at the printer needs."""

from __future__ import annotations

from planner.output import Sheet
from planner.plan import Plan
from tests.output.said import said


def test_a_plate_card_says_what_a_person_at_the_printer_needs(plan: Plan, sheets: dict[str, Sheet]) -> None:
    """Hours, grams, every piece with its caliper reading, the first layer, what to do when it fails."""
    cards = sheets["plate-cards"].cards

    assert len(cards) == len(plan.plates)
    for card, plate in zip(cards, plan.plates, strict=True):
        told = said(Sheet(name="x", title="x", cards=(card,)))
        assert f"{plate.duration_s.value / 3600:.1f} h" in told
        assert plate.mass_g is not None
        assert f"{plate.mass_g.value:.0f} g" in told or f"{plate.mass_g.value:.1f} g" in told
        for name in {p.part for p in plate.placements}:
            assert name in told
        assert "do not scale, do not mirror" in told
        assert "Keep a piece only if its own height in the table" in told
        assert "finished at" in told
