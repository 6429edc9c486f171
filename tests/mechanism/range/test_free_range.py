"""Ranges of 30 invented mechanisms against closed forms: what is planted is found, and nothing is where nothing is."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from manifold3d import Manifold, OpType

from planner.assembly import Claim
from planner.job import Hardware
from planner.mechanism import BoreStack, PlacedBore, Ranges, ranges_of
from planner.mechanism.range import free_range
from tests.conftest import MakeJob
from tests.mechanism.invented import LEVEL, Device, bar, block, devices, meets_deg, plate, turns
from tests.mechanism.range.test_device_bodies import BORE
from tests.shapes import cylinder, solid_of

DEVICES = devices()
STOP_DEG = 0.1


def _ranges(make_job: MakeJob, device: Device, *, clearance_mm: float = 0.0, factor: float = 1.0) -> Ranges:
    """Return the ranges of a device."""
    job = make_job(device.job_text, **device.solids)
    return ranges_of(job, device.solids, device.mechanism(), clearance_mm=clearance_mm, factor=factor)


def test_there_are_thirty_and_half_of_them_stop() -> None:
    """30 mechanisms, a collision planted in 15."""
    assert len(DEVICES) == 30
    assert sum(device.planted for device in DEVICES) >= 15
    assert sum(all(end is None for free in device.ranges.values() for end in free) for device in DEVICES) >= 10


@pytest.mark.parametrize("device", DEVICES, ids=lambda device: device.name)
def test_ranges_are_those_of_the_closed_form(make_job: MakeJob, device: Device) -> None:
    """Every stop within 0.1 degrees or mm of the formula, and none where nothing stands in the way."""
    found = _ranges(make_job, device)

    for name, expected in device.ranges.items():
        for mine, right in zip(found.of(name).free_deg, expected, strict=True):
            assert (mine is None) == (right is None), found.of(name)
            assert mine is None or right is None or mine == pytest.approx(right, abs=STOP_DEG)


@pytest.mark.parametrize(("deep_mm", "sunk"), [(0.5, ("base", "arm")), (-0.4, ())])
def test_what_is_drawn_inside_what_it_moves_on_is_told(
    make_job: MakeJob, deep_mm: float, sunk: tuple[str, ...]
) -> None:
    """An arm half a millimetre deep in its base as drawn is named with it, whatever stops it; one above it is not."""
    arm = bar(40.0, 8.0, 0).translate((0.0, 0.0, -LEVEL + 5.0 - deep_mm))
    solids = {"base": solid_of(plate(-1)), "arm": solid_of(arm)}
    joint = turns("base", "arm", 0.0, 0.0)
    device = Device(name="hinge", solids=solids, joints=(joint,), ranges={joint.name: (None, None)})

    assert _ranges(make_job, device).of("base to arm").sunk == sunk


def test_a_stop_comes_so_much_earlier_with_a_clearance(make_job: MakeJob) -> None:
    """A clearance of u lets a side stop u before the corner: y cos t - x sin t = w / 2 + u."""
    x, y, wide, u = 25.0, 9.0, 8.0, 0.3
    solids = {"base": solid_of(plate(-1) + block(x, y, 0)), "arm": solid_of(bar(40.0, wide, 0))}
    device = Device(
        name="hinge", solids=solids, joints=(turns("base", "arm", 0.0, 0.0),), ranges={"base to arm": (None, None)}
    )

    found = _ranges(make_job, device, clearance_mm=u).of("base to arm")

    assert found.free_deg[1] == pytest.approx(meets_deg(x, y, wide + 2 * u), abs=STOP_DEG)
    assert found.stops[-1].what == "near"
    assert found.stops[-1].parts == ("base", "arm")
    at = found.stops[-1].at_mm
    assert at is not None
    assert math.dist(at[:2], (x, y)) < 1.0
    assert found.stops[-1].arm_mm == pytest.approx(math.hypot(x, y), abs=1.0)


def test_the_clearance_is_of_the_printed_size(make_job: MakeJob) -> None:
    """At twice the size the same clearance is half as much as drawn; without hardware nothing else changes."""
    device = DEVICES[0]
    small = _ranges(make_job, device, clearance_mm=0.4, factor=1.0).of("base to arm")
    large = _ranges(make_job, device, clearance_mm=0.8, factor=2.0).of("base to arm")

    assert small.free_deg == pytest.approx(large.free_deg)


def test_faces_in_contact_are_no_stop(make_job: MakeJob) -> None:
    """An arm that lies on its base, and whose pin fills its bore, turns until its side meets the block."""
    x, y, wide = 25.0, 9.0, 8.0
    pin = solid_of(plate(-1).translate((0, 0, 0.4)) + cylinder(4.0, 5.0, 24) + block(x, y, 0))
    arm = solid_of(bar(40.0, wide, 0) - cylinder(4.0, 12.0, 36).translate((0, 0, -1)))
    device = Device(name="hinge", solids={"base": pin, "arm": arm}, joints=(turns("base", "arm", 0.0, 0.0),), ranges={})

    found = _ranges(make_job, device).of("base to arm")

    assert found.free_deg[1] == pytest.approx(meets_deg(x, y, wide), abs=STOP_DEG)


@pytest.mark.parametrize("gap", [0.25, 0.0])
def test_the_least_gap_on_the_way_needed(make_job: MakeJob, gap: float) -> None:
    """At its nearest, a side is y cos t - x sin t - w / 2 from the corner; 0 where the way leads into the block.

    That the arm always is 0.4 mm above its base is no news.
    """
    x, y, wide = 25.0, 7.0, 8.0
    needs = (0.0, meets_deg(x, y, wide + 2 * gap) + (0.0 if gap else 5.0))
    solids = {"base": solid_of(plate(-1) + block(x, y, 0)), "arm": solid_of(bar(40.0, wide, 0))}
    joint = replace(turns("base", "arm", 0.0, 0.0), needs_deg=needs)
    device = Device(name="hinge", solids=solids, joints=(joint,), ranges={})

    least = _ranges(make_job, device).of("base to arm").least_gap

    assert least is not None
    assert least.gap_mm == pytest.approx(gap, abs=0.01)
    assert least.parts == ("base", "arm")


def test_limits_that_the_job_states_end_a_range(make_job: MakeJob) -> None:
    """A stated limit before the block ends the range, one behind it does not."""
    device = DEVICES[0]
    joint = replace(device.joints[0], limits_deg=(-90.0, 5.0))
    found = _ranges(make_job, replace(device, joints=(joint,))).of("base to arm")

    assert found.free_deg == pytest.approx((device.ranges["base to arm"][0], 5.0), abs=STOP_DEG)
    assert [stop.what for stop in found.stops] == ["meets", "stated"]


def test_a_second_joint_is_tried_while_the_first_is_turned(make_job: MakeJob) -> None:
    """An arm on an arm: turned by the first joint, it meets a post that it does not meet as drawn; where, by the law of sines."""
    long, wide, r = 40.0, 8.0, 2.0
    post = cylinder(2 * r, 12.0, 96).translate((long + 22.0, 12.0, -0.4))
    solids = {
        "base": solid_of(plate(-1, 90.0) + post),
        "near": solid_of(bar(long, wide, 0)),
        "far": solid_of(bar(30.0, wide, 1, (long, 0.0))),
    }
    joints = (turns("base", "near", 0.0, 0.0), turns("near", "far", long, 0.0))
    device = Device(name="arms", solids=solids, joints=joints, ranges={"base to near": (None, None)})
    job = make_job(device.job_text, **solids)

    found = ranges_of(job, solids, device.mechanism(), held={"base to near": -10.0}).of("near to far")

    turn = math.radians(-10.0)
    at = long * math.cos(turn), long * math.sin(turn)
    to = long + 22.0 - at[0], 12.0 - at[1]
    meets = math.degrees(math.atan2(to[1], to[0]) - math.asin((wide / 2 + r) / math.hypot(*to))) + 10.0
    assert found.free_deg[1] == pytest.approx(meets, abs=STOP_DEG)


@pytest.mark.parametrize("seed", range(4))
def test_stops_of_random_bodies_are_those_of_a_dense_search(make_job: MakeJob, seed: int) -> None:
    """Two heaps of boxes: no overlap up to the stop at any quarter of a degree, and one just beyond it."""
    rng = np.random.default_rng(seed)

    def heap(n: int, low: tuple[float, ...], high: tuple[float, ...]) -> Manifold:
        boxes = [Manifold.cube(tuple(rng.uniform(2, 9, 3))).rotate(tuple(rng.uniform(0, 90, 3))) for _ in range(n)]
        return Manifold.batch_boolean([b.translate(tuple(rng.uniform(low, high))) for b in boxes], OpType.Add)

    base, arm = heap(5, (-30, 6, -9), (30, 30, 9)), heap(5, (-25, -32, -9), (25, -10, 9))
    solids = {"base": solid_of(base), "arm": solid_of(arm)}
    joint = turns("base", "arm", 0.0, 0.0)
    device = Device(name="heaps", solids=solids, joints=(joint,), ranges={})

    low, high = _ranges(make_job, device).of(joint.name).free_deg

    def shared(deg: float) -> float:
        return float((base ^ arm.rotate((0, 0, deg))).volume())

    if low is None or high is None:
        assert max(shared(deg) for deg in np.arange(0.0, 360.0, 0.25)) < 1e-3
        return
    assert max(shared(deg) for deg in np.arange(low, high, 0.25)) < 1e-3
    assert shared(low - 0.5) > 1e-3
    assert shared(high + 0.5) > 1e-3


@pytest.mark.parametrize("factor", [1.0, 2.0])
def test_the_head_of_a_binding_post_takes_room_and_keeps_its_size(make_job: MakeJob, factor: float) -> None:
    """A post of 5 mm with a head of 9.5 mm, proud of the base beside an arm: y cos t - x sin t = w / 2 + 4.75 / size."""
    x, y, wide = 25.0, 14.0, 8.0
    device = Device(
        name="post",
        solids={"base": solid_of(plate(-1)), "tag": solid_of(plate(-2)), "arm": solid_of(bar(40.0, wide, 0))},
        joints=(turns("base", "arm", 0.0, 0.0),),
        ranges={},
    )
    post = Hardware(name="post", kind="binding-post", diameter_mm=5.0, fit="sliding", joins=("base", "tag"))
    bores = [(name, replace(BORE, centre_mm=(x, y, 2.5 - level * LEVEL))) for level, name in ((1, "base"), (2, "tag"))]
    claims = [(name, bore, Claim(part=name, bore=bore, hardware=post, fit="sliding")) for name, bore in bores]
    stack = BoreStack(bores=tuple(PlacedBore(copy=name, bore=bore, claim=claim) for name, bore, claim in claims))
    job = make_job(device.job_text, **device.solids)

    found = ranges_of(job, device.solids, replace(device.mechanism(), stacks=(stack,)), factor=factor).of("base to arm")

    assert found.free_deg[1] == pytest.approx(meets_deg(x, y, wide + 9.5 / factor), abs=0.2)
    assert found.stops[-1].parts == ("head or nut of post", "arm")
    assert found.stops[-1].guessed


def test_a_range_is_found_once_whichever_file_colour_and_pose_a_part_has(
    make_job: MakeJob, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of parts a range hangs on shape, place and own scale: all else of them may change, and nothing is turned again."""
    device = DEVICES[0]
    job = make_job(device.job_text, **device.solids)
    before = ranges_of(job, device.solids, device.mechanism())
    monkeypatch.setattr(free_range._Turn, "_led", lambda *_: pytest.fail("turned again"))
    changed = replace(
        job,
        parts=tuple(
            replace(part, mesh=Path("b.stl"), colour="red", pose=(1.0, 0.0, 0.0), spares=2, load_dir=(0.0, 0.0, 1.0))
            for part in job.parts
        ),
    )

    assert ranges_of(changed, device.solids, device.mechanism()) == before
    own_size = replace(job, parts=tuple(replace(part, scale_percent=90.0) for part in job.parts))
    with pytest.raises(pytest.fail.Exception, match="turned again"):
        ranges_of(own_size, device.solids, device.mechanism())
