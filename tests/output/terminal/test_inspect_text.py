"""A mesh's measures in a terminal: size, thinnest wall, every bore."""

from __future__ import annotations

from pathlib import Path

from planner.output import show_mesh
from planner.survey import survey
from tests.output.terminal.consoles import console
from tests.shapes import bored_plate, tube


def test_a_plate_with_two_bores() -> None:
    """60 x 40 x 8 mm with bores of 3.4 and 5 mm: both rows, the size, and that it is closed."""
    out, written = console()
    plate = bored_plate(60, 40, 8, [(10, 10, 3.4, 48), (40, 20, 5.0, 48)])
    show_mesh(out, Path("plate.stl"), survey(plate))
    text = written.getvalue()

    assert "size 60.00 x 40.00 x 8.00 mm" in text
    assert "closed" in text
    assert "through" in text
    assert " 8.00 " in text
    assert max(map(len, text.splitlines())) <= 80


def test_pegs_are_told_beside_the_bores() -> None:
    """A sleeve of 6 mm about a bore of 4 mm: the peg is its outside."""
    out, written = console()
    show_mesh(out, Path("sleeve.stl"), survey(tube(6.0, 4.0, 20.0, 48)))

    assert "peg p1 6.000 mm, 20.00 mm long, axis z" in written.getvalue()
