"""The edge that a screwed part presses on lies where what both parts have there ends."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.assembly import Claim
from planner.job import Hardware
from planner.strength.loads.pressed_edges import Footing
from tests.mechanism.cord.path.known_parts import bore
from tests.shapes import Manifold, bored_plate, solid_of
from tests.strength.loads.lifted_bracket import bracket_on_base

SCREW = Hardware(name="screw", kind="machine-screw", diameter_mm=4.0, fit="sliding", pilot_mm=3.3, joins=("lid", "box"))
LID = Claim(part="bracket", bore=bore(1, 0.0, 15.0, 2.5, 4.4, 5.0), hardware=SCREW, fit="sliding")
BASE = Claim(part="base", bore=bore(2, 0.0, 15.0, -6.0, 3.3, 12.0), hardware=SCREW, fit="pilot")
DOWN, BACK, FORTH = (np.array(way) for way in ((0.0, 0.0, -1.0), (-1.0, 0.0, 0.0), (1.0, 0.0, 0.0)))


def test_the_edge_lies_where_the_shorter_of_both_parts_ends() -> None:
    """By the drawing: the foot ends 10 mm behind its screws, and 30 before them; a base of 4 mm behind ends first."""
    solids = bracket_on_base(10.0)
    footing = Footing(solids=solids, claims=[LID, BASE])

    assert footing.edge(LID, DOWN, BACK).known_mm == pytest.approx(10.0, abs=0.01)
    assert footing.edge(LID, DOWN, FORTH).known_mm == pytest.approx(30.0, abs=0.01)
    assert footing.edge(BASE, -DOWN, BACK).known_mm == pytest.approx(10.0, abs=0.01)
    short = solid_of(Manifold.cube((40, 60, 20)).translate((-4, -30, -20)), "base")
    assert Footing(solids={**solids, "base": short}, claims=[LID, BASE]).edge(
        LID, DOWN, BACK
    ).known_mm == pytest.approx(4.0, abs=0.01)


def test_the_edge_of_a_part_that_is_drawn_elsewhere_is_asked() -> None:
    """Its least wall is known, 3 mm beside a bore of 3.3: no less than 4.65 mm from the axis (by hand)."""
    away = replace(BASE, bore=replace(bore(2, 0.0, 90.0, -6.0, 3.3, 12.0), edge_wall_mm=3.0))
    edge = Footing(solids=bracket_on_base(10.0), claims=[LID, away]).edge(LID, DOWN, BACK)

    assert edge.known_mm == pytest.approx(10.0, abs=0.01)
    assert edge.least_mm == pytest.approx(4.65)
    assert edge.other == "base"


def test_a_mesh_with_faults_tells_its_least_wall_alone() -> None:
    """Nothing cuts it; then the edge is no farther than the wall beside the bore, and that is asked."""
    broken = replace(bored_plate(40, 40, 5, []), faces=bored_plate(40, 40, 5, []).faces[1:])
    edge = Footing(solids={"bracket": broken}, claims=[LID]).edge(LID, DOWN, BACK)

    assert (edge.known_mm, edge.other) == (None, "bracket")
    assert edge.least_mm == pytest.approx(2.2 + (LID.bore.edge_wall_mm or 0.0))
