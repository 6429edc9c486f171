"""Cords that lie on a body take room, and keep their size."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planner.job import Cord
from planner.mechanism import ranges_of
from planner.mechanism.cord.path.path_stop import PathStop, PointStop
from planner.mechanism.range.cord_bodies import cord_bodies, tube
from tests.conftest import MakeJob
from tests.mechanism.invented import Device, bar, plate, turns
from tests.shapes import solid_of

CORD = Cord(name="pull", part="base", diameter_mm=2.0)
LONG, WIDE, Y = 40.0, 8.0, 14.0
DEVICE = Device(
    name="hinge",
    solids={"base": solid_of(plate(-1)), "arm": solid_of(bar(LONG, WIDE, 0))},
    joints=(turns("base", "arm", 0.0, 0.0),),
    ranges={},
)


def points(*stops: tuple[str, float]) -> tuple[PathStop, ...]:
    return tuple(PointStop(copy=copy, at_mm=(x, Y, 2.5)) for copy, x in stops)


@pytest.mark.parametrize("factor", [0.5, 1.0, 2.0])
def test_an_arm_stops_at_a_cord_that_lies_beside_it(make_job: MakeJob, factor: float) -> None:
    """Along y = 14 mm a cord of 2 mm meets the tip's corner at 40 sin t + 4 cos t = 14 - 1 / size."""
    mechanism = DEVICE.mechanism()
    job = make_job(DEVICE.job_text, **DEVICE.solids)
    soft = cord_bodies({"pull": (CORD, points(("base", 5.0), ("base", 45.0)))}, mechanism, factor)

    found = ranges_of(job, DEVICE.solids, mechanism, factor=factor, soft=soft).of("base to arm")

    meets = math.degrees(math.asin((Y - 1.0 / factor) / math.hypot(LONG, WIDE / 2)) - math.atan2(WIDE / 2, LONG))
    assert found.free_deg[1] == pytest.approx(meets, abs=0.2)
    stop = found.stops[-1]
    assert (stop.parts, stop.soft, stop.guessed) == (("the cord pull", "arm"), True, False)


def test_a_stretch_between_bodies_goes_along_and_a_way_not_known_is_no_body(make_job: MakeJob) -> None:
    """From base to arm the cord stops neither; a cord without a way has no place; what lies on the arm moves."""
    mechanism = DEVICE.mechanism()
    across, lost = points(("base", 5.0), ("arm", 45.0)), "its way is not known"
    on_arm = points(("base", 5.0), ("arm", 20.0), ("arm", 30.0))

    (between,) = cord_bodies({"a": (CORD, across), "b": (CORD, lost)}, mechanism, 1.0)
    assert len(between.ends) == 2
    free = ranges_of(make_job(DEVICE.job_text, **DEVICE.solids), DEVICE.solids, mechanism, soft=[between])
    assert free.of("base to arm").free_deg == (None, None)
    body, _ = cord_bodies({"a": (CORD, on_arm)}, mechanism, 1.0)
    assert not body.ends
    assert mechanism.groups[body.group] == {"arm"}
    assert body.shape.bounding_box()[0::3] == pytest.approx((20.0, 30.0), abs=0.01)


@pytest.mark.parametrize("led", [False, True])
def test_a_lever_that_no_cord_moves_stops_at_a_cord_between_others(make_job: MakeJob, led: bool) -> None:
    """The cord from base to a pulley crosses the way of the arm: 40 sin t + 4 cos t = 14 - 1; led by a cord it goes by.

    What cords move goes along with others that they move: none of them stands as drawn.
    """
    solids = {**DEVICE.solids, "pulley": solid_of(bar(6.0, 6.0, 0, (60.0, Y)))}
    device = replace(DEVICE, solids=solids, joints=(*DEVICE.joints, turns("base", "pulley", 60.0, Y)))
    mechanism = device.mechanism()
    ways = {"pull": (CORD, points(("base", 5.0), ("pulley", 55.0)))}
    if led:
        own = PointStop(copy="base", at_mm=(-5.0, -30.0, 2.5)), PointStop(copy="arm", at_mm=(10.0, -3.0, 2.5))
        ways["own"] = (CORD, own)
    soft = cord_bodies(ways, mechanism, 1.0)

    found = ranges_of(make_job(device.job_text, **solids), solids, mechanism, soft=soft).of("base to arm")

    meets = math.degrees(math.asin((Y - 1.0) / math.hypot(LONG, WIDE / 2)) - math.atan2(WIDE / 2, LONG))
    assert found.free_deg[1] == (None if led else pytest.approx(meets, abs=0.2))


def test_a_tube_is_as_large_as_its_cylinders() -> None:
    """Two straight stretches at a right angle: pi r² (a + b) plus a corner of less than r³, less the facets' 3 %."""
    body = tube([(0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (10.0, 8.0, 0.0)], 1.0)

    assert body.volume() == pytest.approx(math.pi * 18.0, rel=0.04)
    assert tube([], 1.0).is_empty()
