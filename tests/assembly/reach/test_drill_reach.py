"""What a drill meets before and beside a bore, in bodies whose distances are known by their drawing."""

from __future__ import annotations

import pytest

from planner.assembly import DrillReach
from planner.survey import survey
from tests.shapes import Manifold, bored_plate, cuboid, cylinder, solid_of

FORK = Manifold.cube((40, 40, 5)) + Manifold.cube((40, 5, 15)) + Manifold.cube((40, 40, 5)).translate((0, 0, 15))
"""Two plates of 5 mm, 10 mm apart, joined at one edge."""


def test_a_wall_before_a_bore_is_seen_from_its_side_alone() -> None:
    """A bore in the lower plate alone: 10 mm before its upper mouth stands the other plate, below it nothing."""
    solid = solid_of(FORK - cylinder(4, 7, 48).translate((20, 25, -1)))
    (bore,) = survey(solid).bores
    free = {end.way[2]: end.free_mm for end in DrillReach({"a": solid}).ends("a", bore)}

    assert free[-1.0] is None
    assert free[1.0] == pytest.approx(10.0, abs=0.01)


def test_bores_on_one_axis_leave_each_other_free() -> None:
    """Through both plates: each is drilled through the other, whose plate stands 15 mm beside the lower one's mouth."""
    solid = solid_of(FORK - cylinder(4, 22, 48).translate((20, 25, -1)))
    bores = survey(solid).bores
    reach = DrillReach({"a": solid})

    assert {end.free_mm for bore in bores for end in reach.ends("a", bore)} == {None}
    lower = min(bores, key=lambda bore: bore.centre_mm[2])
    up = next(end for end in reach.ends("a", lower) if end.way[2] > 0)
    assert up.beside_mm == pytest.approx(15.0, abs=0.01)


def test_the_floor_of_a_blind_bore_is_no_mouth() -> None:
    """A bore of 8 mm into a plate of 12 ends at 0 on one side, and is free on the other."""
    solid = bored_plate(40, 40, 12, [(20, 20, 4, 48)], deep=8)
    (bore,) = survey(solid).bores

    assert {end.free_mm for end in DrillReach({"a": solid}).ends("a", bore)} == {0.0, None}


def test_an_open_body_is_not_measured() -> None:
    """Where there is no closed body there is no inside: the mesh is a hold of its own."""
    open_body = type("Open", (), {"manifold": None})()
    (bore,) = survey(bored_plate(20, 20, 5, [(10, 10, 4, 48)])).bores

    assert DrillReach({"a": open_body}).ends("a", bore) == ()
    assert DrillReach({"a": cuboid(1, 1, 1)}).ends("a", bore) != ()
