"""One hinge and a few others, drawn as strangers draw: the same answer, by hand, whatever way the meshes stand."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
import pytest

from planner.assembly import claims_of
from planner.job import Job
from planner.mechanism import Mechanism, mechanism_of, ranges_of
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

BORE, HIGH, GAP = 5.4, 6.0, 0.5
NEAR, FAR = (28.0, 11.0), (20.0, 19.0)
"""Corners of the block that the arm's sides meet, from the axis; half the arm is 5 mm wide."""
UP = math.degrees(math.acos(5 / math.hypot(*NEAR)) - math.atan2(*NEAR))
"""Its side meets the near corner (x, y) where y cos t - x sin t = 5."""
DOWN = math.degrees(math.atan2(FAR[1], FAR[0]) + math.asin(5 / math.hypot(*FAR))) - 360.0
"""All round the other way its other side meets the far corner, where x sin t - y cos t = 5."""
PIN = 'kind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.4\nfit = "turning"\nstack_mm = 12.5\n'
Bodies = Mapping[str, Manifold]
Range = tuple[float | None, float | None]


def _hinge(lift: float = 0.0) -> dict[str, Manifold]:
    """Return a base with a block and an arm above it, on an upright axis."""
    bore = cylinder(BORE, 90.0, 48).translate((0, 0, -20))
    base = Manifold.cube((80, 60, HIGH)).translate((-30, -30, 0)) + Manifold.cube((8, 8, 20)).translate((20, 11, 0))
    arm = cylinder(10.0, HIGH, 64) + Manifold.cube((45, 10, HIGH)).translate((0, -5, 0))
    return {"base": base - bore, "arm": arm.translate((0, 0, HIGH + GAP + lift)) - bore}


def _text(names: Bodies, more: str = "", joins: tuple[str, ...] = ("base", "arm"), pin: str = PIN) -> str:
    parts = "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in names)
    joined = ", ".join(f'"{name}"' for name in joins)
    hardware = f'[[hardware]]\nname = "pin"\njoins = [{joined}]\n{pin}' if joins else ""
    return f'[job]\nname = "x"\nmaterial = "petg"\n{parts}{hardware}{more}'


def _found(make_job: MakeJob, bodies: Bodies, text: str) -> tuple[Job, Mechanism | None, dict[str, Range]]:
    """Return job, mechanism and the free range of every joint."""
    solids = {name: solid_of(body, name) for name, body in bodies.items()}
    job, surveys = make_job(text, **solids), {name: survey(solid) for name, solid in solids.items()}
    found = mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)
    free = {} if found is None else {one.joint: one.free_deg for one in ranges_of(job, solids, found).joints}
    assert found is None or not found.unsolved
    assert found is None or not found.placed.unplaced
    return job, found, free


def _same(free: Range, sense: float = 1.0) -> None:
    """Say that a range is the hinge's, seen along its axis or against it."""
    expected = (DOWN, UP) if sense > 0 else (-UP, -DOWN)
    assert free == pytest.approx(expected, abs=0.1)


@pytest.mark.parametrize("tilt", [(90.0, 0.0, 0.0), (0.0, 90.0, 0.0), (40.0, -63.0, 115.0)])
def test_along_any_direction(make_job: MakeJob, tilt: tuple[float, float, float]) -> None:
    """Turned and moved as a whole: the range is the same, its sense that of the axis that is told."""
    bodies = {name: body.rotate(tilt).translate((110, -40, 77)) for name, body in _hinge().items()}
    _, found, free = _found(make_job, bodies, _text(bodies))
    assert found is not None
    up = Manifold.cube((1, 1, 1)).translate((-0.5, -0.5, 50)).rotate(tilt).bounding_box()
    middle = np.array(up[:3]) + np.array(up[3:])

    _same(free["base to arm"], float(middle @ np.array(found.joints[0].axis)))


def test_mirrored(make_job: MakeJob) -> None:
    """A mirror turns the sense round, about an axis that points as before."""
    bodies = {name: body.mirror((1, 0, 0)) for name, body in _hinge().items()}

    _same(_found(make_job, bodies, _text(bodies))[2]["base to arm"], -1.0)


def test_one_part_drawn_elsewhere_and_placed(make_job: MakeJob) -> None:
    """The arm's mesh stands on its side far away; its [[place]] brings it back, and the base stands as drawn."""
    bodies = _hinge()
    bodies["arm"] = bodies["arm"].translate((30, 12, 5)).rotate((90, 0, 0))
    place = '[[place]]\npart = "arm"\nat_mm = [-30.0, -12.0, -5.0]\nturn = [1.0, 0.0, 0.0, -90.0]\n'
    _, found, free = _found(make_job, bodies, _text(bodies, place))
    assert found is not None

    assert found.placed.how == {"base": "drawn", "arm": "stated"}
    _same(free["base to arm"], found.joints[0].axis[2])


@pytest.mark.parametrize("apart", [False, True])
def test_a_pin_that_is_printed_as_a_part(make_job: MakeJob, *, apart: bool) -> None:
    """In its bores, or lying beside the base to be printed: it stands in the axis and stops nothing."""
    peg = cylinder(5.0, 2 * HIGH + GAP, 64)
    bodies = {**_hinge(), "peg": peg.rotate((90, 0, 0)).translate((70, 0, 3)) if apart else peg}
    _, found, free = _found(make_job, bodies, _text(bodies, pin=f'{PIN}printed = "peg"\n'))
    assert found is not None

    assert found.placed.how["peg"] == ("solved" if apart else "drawn")
    low, high = found.frames["peg"].points(
        np.array([[70, -12.5, 3], [70, 0, 3]] if apart else [[0, 0, 0], [0, 0, 12.5]])
    )
    assert sorted((low[2], high[2])) == pytest.approx([0.0, 12.5], abs=0.05)
    _same(free["base to arm"])


def test_a_screw_with_washers(make_job: MakeJob) -> None:
    """A washer of 1 mm lies between the parts, heads and nut on their outsides: the same range."""
    bodies = _hinge(lift=0.6)
    pin = PIN.replace("dowel-pin", "machine-screw").replace("12.5", "13.1") + 'nut = "locking"\n'

    _same(_found(make_job, bodies, _text(bodies, pin=pin))[2]["base to arm"])


def test_two_joints_on_one_axis(make_job: MakeJob) -> None:
    """A second arm of 8 mm, drawn at 60 degrees a level higher, is stopped by the same block at angles of its own."""
    hand = cylinder(8.0, HIGH, 64) + Manifold.cube((30, 8, HIGH)).translate((0, -4, 0))
    hand = hand.rotate((0, 0, 60)).translate((0, 0, 2 * (HIGH + GAP))) - cylinder(BORE, 90.0, 48)
    bodies = {**_hinge(), "hand": hand}
    _, _, free = _found(make_job, bodies, _text(bodies, joins=("base", "arm", "hand")))
    low = math.degrees(math.atan2(FAR[1], FAR[0]) + math.asin(4 / math.hypot(*FAR)))
    high = math.degrees(math.acos(4 / math.hypot(*NEAR)) - math.atan2(*NEAR))

    _same(free["base to arm"])
    assert free["base to hand"] == pytest.approx((low - 60.0, high + 300.0), abs=0.1)


def test_a_slider_in_a_dovetail(make_job: MakeJob) -> None:
    """Slanted walls on both sides hold it; it goes 25 mm to the end block, and off the open end."""
    tail = Manifold.hull_points(
        [(x, side * half, z) for x in (0, 100) for side in (-1, 1) for half, z in ((4, 6), (7, 12))]
    )
    hollow = Manifold.hull_points(
        [(x, side * half, z) for x in (-50, 150) for side in (-1, 1) for half, z in ((4.45, 5.8), (7.45, 12.4))]
    )
    rail = (
        Manifold.cube((100, 30, 6)).translate((0, -15, 0)) + tail + Manifold.cube((6, 30, 18)).translate((80, -15, 0))
    )
    bodies = {"base": rail, "car": Manifold.cube((25, 30, 11.5)).translate((30, -15, 6.5)) - hollow}
    slides = '[[joint]]\nbetween = ["base", "car"]\nhow = "slides"\n'
    _, found, free = _found(make_job, bodies, _text(bodies, slides, joins=()))
    assert found is not None

    assert found.joints[0].axis == pytest.approx((1.0, 0.0, 0.0), abs=1e-6)
    assert free["base to car"][0] is None
    assert free["base to car"][1] == pytest.approx(25.0, abs=0.1)


def test_a_part_that_two_screws_hold_does_not_move(make_job: MakeJob) -> None:
    """Two axes hold it fast, even on pins that would let it turn on one: there is no mechanism."""
    lid, base = (Manifold.cube((60, 30, HIGH)).translate((-30, -15, z)) for z in (HIGH, 0.0))
    for x in (-12, 12):
        lid, base = (body - cylinder(BORE, 90.0, 48).translate((x, 0, -20)) for body in (lid, base))
    bodies = {"base": base, "lid": lid}

    assert _found(make_job, bodies, _text(bodies, joins=("base", "lid")))[1] is None
