"""How things stand before a chapter is planned again."""

from __future__ import annotations

from datetime import datetime

from planner.packing import Placement
from planner.plan import Drawn, Stood

NOON = datetime(2026, 12, 1, 12)


def test_a_plate_of_the_last_plan_counts_its_pieces() -> None:
    """Two jaws and a cap."""
    placements = [
        Placement(part=p, copy=n, x_mm=0.0, y_mm=0.0, turn_deg=0.0) for n, p in enumerate(("jaw", "jaw", "cap"))
    ]

    assert Stood(printer="a", start=NOON, placements=tuple(placements)).pieces == {"jaw": 2, "cap": 1}


def test_what_is_drawn_adds_up() -> None:
    """Grams are summed, and all times are kept."""
    one, two = Drawn(grams=5.0, spans=((NOON, NOON),)), Drawn(grams=7.0)

    assert (one + two).grams == 12.0
    assert (two + one).spans == ((NOON, NOON),)
