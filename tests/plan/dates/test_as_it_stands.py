"""How things stand before a chapter is planned again."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from types import SimpleNamespace
from typing import cast

from planner.packing import Placement, Plate
from planner.plan import Drawn, Standing, Stood
from planner.plan.dates.as_it_stands import last_spools

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


def test_a_plate_of_the_same_pieces_has_the_last_ones_spool() -> None:
    """A plate of a plan that stood with S-1 is planned on S-1 again; without a start, or a spool, on none."""
    placements = (Placement(part="jaw", copy=1, x_mm=0.0, y_mm=0.0, turn_deg=0.0),)
    plate = cast("Plate", SimpleNamespace(number=3, placements=placements, printer="a"))
    stood = Stood(printer="a", start=NOON, placements=placements, spool="S-1")

    assert last_spools([plate], Standing(stood=(stood,))) == {3: "S-1"}
    assert last_spools([plate], Standing(stood=(replace(stood, start=None), replace(stood, spool="")))) == {}
