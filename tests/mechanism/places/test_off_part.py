"""A place that a job states acts on matter: off the part it is a hold that says how far off, wherever it is stated."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.finding import Vec3, Verdict
from planner.job import PathPoint
from planner.mechanism import STILL, Landing
from planner.mechanism.cord_effects.cord_moves import cord_moves
from planner.mechanism.cord_effects.tip_loads import tip_loads, tips
from planner.mechanism.judging.missing_facts import cure_of
from planner.mechanism.places.off_part import inside, surface_mm
from planner.strength import screened, strength_rules
from planner.strength.unscreened import Unscreened
from tests.mechanism.cord.path.known_parts import bore, survey_of
from tests.mechanism.cord_effects.one_jaw import OneJaw, one_jaw
from tests.shapes import Manifold, cuboid, cylinder, solid_of


@pytest.fixture(name="device", scope="module")
def _device(tmp_path_factory: pytest.TempPathFactory) -> OneJaw:
    """Return the jaw on its plate."""
    return one_jaw(tmp_path_factory.mktemp("jaw"))


def test_distance_and_inside_are_those_of_a_block() -> None:
    """From a block of 10 x 20 x 30 mm: 7 mm before a side, the diagonal 3-4-0 beside an edge, and within it."""
    block = cuboid(10, 20, 30)

    assert surface_mm(block, (17.0, 5.0, 5.0)) == pytest.approx(7.0)
    assert surface_mm(block, (13.0, 24.0, 5.0)) == pytest.approx(5.0)
    assert (inside(block, (5.0, 10.0, 15.0)), inside(block, (-0.1, 10.0, 15.0))) == (True, False)


@pytest.mark.parametrize(
    ("at_mm", "off_mm"),
    [
        ((8.0, 15.0, 15.0), 0.0),  # 8 mm deep in matter
        ((15.0, 15.0, 15.0), 0.0),  # in the bore of 20 mm, 10 mm from its wall
        ((15.0, 15.0, 45.0), 0.0),  # between two bores on one axis, as a pin's middle in a fork
        ((15.0, 15.0, 80.0), 10.0 * 2.0**0.5),  # 10 mm before the mouth, the rim 10 mm beside it
        ((-4.9, 15.0, 15.0), 4.9),
        ((-8.0, 15.0, 15.0), 8.0),
    ],
)
def test_openings_belong_to_a_part_and_air_does_not(device: OneJaw, at_mm: Vec3, off_mm: float) -> None:
    """A fork of two plates of 30 mm with a bore of 20 mm through both, 30 mm apart: distances by hand."""
    plates = Manifold.cube((30.0, 30.0, 30.0)) + Manifold.cube((30.0, 30.0, 10.0)).translate((0.0, 0.0, 60.0))
    fork = solid_of(plates - cylinder(20.0, 200.0, 96).translate((15.0, 15.0, 0.0)), "fork")
    survey = survey_of("fork", (bore(1, 15.0, 15.0, 15.0, 20.0, 30.0), bore(2, 15.0, 15.0, 65.0, 20.0, 10.0)))
    known = {"job": replace(device.job, paddings=()), "frames": {"fork": STILL}, "groups": ()}
    landing = Landing(solids={"fork": fork}, surveys={"fork": survey}, **known)  # type: ignore[arg-type]

    found = landing.off_mm("fork", at_mm)

    assert found == pytest.approx(off_mm, abs=0.05)  # the bore has facets
    assert bool(landing.off_words("fork", at_mm, "it")) == (off_mm > 5.0)


@pytest.mark.parametrize("place", ["path", "point", "grip_at_mm", "load_at_mm"])
def test_a_force_that_acts_on_air_is_a_hold_wherever_it_is_stated(device: OneJaw, place: str) -> None:
    """20 mm above the jaw, as where a place is stated in another frame than the mesh's: no pull and no load is told."""
    air = (60.0, 0.0, 25.0)
    eye, job = device.job.cords[0].path[0], device.job
    if place == "path":
        job = device.with_cord(path=(eye, PathPoint(copy="jaw", at_mm=air)))
    elif place == "point":
        job = replace(job, points=(replace(job.points[0], at_mm=air),))
    elif place == "grip_at_mm":
        job = device.with_cord(grip_at_mm=air)
    else:
        job = replace(job, parts=tuple(replace(one, load_at_mm=air) for one in job.parts))
    strung = device.strung(job)
    (move,) = cord_moves(job, device.solids, strung, 1.0).cords
    why = move.unknown or move.pull_unknown

    assert "at [60.0, 0.0, 25.0] mm lies 20.0 mm off jaw" in why
    assert move.pull_n is None
    assert "in mm as the part's mesh is drawn" in cure_of(why)
    assert (move.travel_mm is None) == (place in ("path", "point"))
    assert not tip_loads(job, device.solids, device.mechanism.frames, strung, 10.0)
    assert not tips(job, device.mechanism.frames, strung, 10.0)


def test_a_part_whose_load_is_stated_in_the_air_has_no_share_of_strength(device: OneJaw) -> None:
    """It is a hold that tells how far off, not a share of a lever that is not there."""
    parts = tuple(replace(one, load_at_mm=(60.0, 0.0, 25.0)) for one in device.job.parts if one.name == "jaw")
    job = replace(device.job, parts=parts, cords=(), joints=(), use=replace(device.job.use, load_n=20.0))
    (found,) = screened(job, device.solids, device.surveys, device.claims, None, {"jaw": (0.0, 0.0, -1.0)})
    (rule,) = strength_rules(job, (found,))

    assert found.unknown is Unscreened.AIR
    assert rule.at(1.0).verdict is Verdict.HOLD
    assert "load_at_mm of jaw at [60.0, 0.0, 25.0] mm lies 20.0 mm off jaw" in rule.at(1.0).why
