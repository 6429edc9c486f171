"""A part that a face holds is judged along that face, too: its layers may be peeled apart there."""

from __future__ import annotations

import pytest
from manifold3d import Manifold

from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.criterion import Strengths
from planner.strength.held.peel import peel_of
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import LoadCase, PartLoad, Support
from tests.shapes import solid_of

UP = (0.0, 0.0, 1.0)


def stuff(normal: Vec3 = UP, infill_share: float = 1.0) -> BeamStuff:
    """Return a material that bears 25 MPa across its layers, and 40 MPa along them."""
    strengths = Strengths(along_mpa=40.0, across_mpa=25.0, shear_mpa=15.0)
    return BeamStuff(strengths=strengths, normal=normal, side_mm=1.35, level_mm=0.8, infill_share=infill_share)


def arm(long_mm: float, high_mm: float) -> Solid:
    """Return an arm 10 mm wide from x = 0, lying on z = 0."""
    return solid_of(Manifold.cube((long_mm, 10.0, high_mm)))


def lifted(at_mm: Vec3, held_mm: float, force_n: float = 10.0, deep_mm: float = 0.0) -> LoadCase:
    """Return a part lifted at a place, held on a wall by its underside over its first millimetres."""
    sides = ((held_mm, 0.0, 0.0), (0.0, 10.0, 0.0), (0.0, 0.0, deep_mm))
    wall = Support(at_mm=(held_mm / 2.0, 5.0, 0.0), over="wall", spread_mm=sides)
    return known_case([PartLoad(at_mm=at_mm, force_n=(0.0, 0.0, force_n))], [wall], "lifted")


def test_an_arm_glued_by_its_underside_is_peeled_at_its_edge() -> None:
    """By hand: 2 w² M / b + 2 w V / b with w = 6^(1/4) / h (Hetényi 1946, Kanninen 1973), of 25 MPa across."""
    found = peel_of(arm(60.0, 5.0), [lifted((60.0, 5.0, 5.0), 20.0)], stuff(), {"wall"})
    wave = 6.0**0.25 / 5.0
    by_hand_mpa = 2.0 * wave**2 * 10.0 * 40.0 / 10.0 + 2.0 * wave * 10.0 / 10.0

    assert found is not None
    assert found.share_percent == pytest.approx(100.0 * by_hand_mpa / 25.0, rel=0.02)
    assert found.at_mm[0] == pytest.approx(20.0, abs=0.2)


def test_a_thick_block_takes_pull_and_bending_over_its_face() -> None:
    """By hand: N / A + M / W (textbook) of a block of 80 mm on a face of 10 by 10 mm, pulled 3 mm off its middle."""
    found = peel_of(arm(10.0, 80.0), [lifted((8.0, 5.0, 80.0), 10.0, 100.0)], stuff(), {"wall"})

    assert found is not None
    assert found.share_percent == pytest.approx(100.0 * (100.0 / 100.0 + 6.0 * 300.0 / 1000.0) / 25.0, rel=0.02)


def test_layers_that_stand_on_the_face_are_not_peeled() -> None:
    """The same arm printed on its side takes its pull along its layers: 25 of 40 times the share."""
    lying, standing = (
        peel_of(arm(60.0, 5.0), [lifted((60.0, 5.0, 5.0), 20.0)], stuff(normal), {"wall"})
        for normal in (UP, (0.0, 1.0, 0.0))
    )

    assert lying is not None
    assert standing is not None
    assert standing.share_percent == pytest.approx(lying.share_percent * 25.0 / 40.0, rel=1e-6)


def test_only_a_face_that_pulls_is_judged() -> None:
    """A joint that does not pull, and bodies that lie deep in each other, have no face to peel."""
    at = (60.0, 5.0, 5.0)

    assert peel_of(arm(60.0, 5.0), [lifted(at, 20.0)], stuff(), set()) is None
    assert peel_of(arm(60.0, 5.0), [lifted(at, 20.0, deep_mm=5.0)], stuff(), {"wall"}) is None


def test_sparse_infill_over_the_face_holds_less() -> None:
    """Walls of infill pull by their share of the face, so that less infill is never told to hold more."""
    case = [lifted((60.0, 5.0, 5.0), 20.0)]
    full, sparse = (peel_of(arm(60.0, 5.0), case, stuff(infill_share=each), {"wall"}) for each in (1.0, 0.15))

    assert full is not None
    assert sparse is not None
    assert sparse.share_percent > full.share_percent
