"""Out of a blind bore is at its open end; out of a through one, toward the other part that is drawn in place."""

from __future__ import annotations

from dataclasses import replace

from planner.assembly import Claim
from planner.job import Hardware
from planner.strength.loads.bore_mouths import ways_out
from tests.mechanism.cord.path.known_parts import bore
from tests.shapes import bored_plate

SCREW = Hardware(name="screw", kind="machine-screw", diameter_mm=4.0, fit="sliding", pilot_mm=3.3, joins=("lid", "box"))
IN_BOX = Claim(part="box", bore=bore(1, 10.0, 10.0, 14.0, 3.3, 12.0), hardware=SCREW, fit="pilot")


def test_a_blind_bore_is_open_where_no_matter_is() -> None:
    """A plate of 20 mm with a bore of 12 mm from above: up, whichever way its axis was written."""
    solid = bored_plate(20, 20, 20, [(10, 10, 3.3, 64)], deep=12)
    for sign in (1.0, -1.0):
        blind = replace(IN_BOX, bore=replace(IN_BOX.bore, through=False, axis=(0.0, 0.0, sign)))

        assert ways_out([blind], {"box": solid}) == {("box", "b1"): (0.0, 0.0, 1.0)}


def test_a_through_bore_tells_by_the_part_that_lies_behind_it() -> None:
    """The lid's bore goes on from 20 mm up, and the box's from there down; drawn at the same place, neither tells."""
    lid = Claim(part="lid", bore=bore(1, 10.0, 10.0, 22.0, 4.5, 4.0), hardware=SCREW, fit="sliding")
    inside = replace(lid, bore=IN_BOX.bore)

    assert ways_out([IN_BOX, lid], {}) == {("box", "b1"): (0.0, 0.0, 1.0), ("lid", "b1"): (0.0, 0.0, -1.0)}
    assert ways_out([IN_BOX, inside], {}) == {}
