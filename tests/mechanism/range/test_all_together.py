"""Joints that go together: two jaws that reach their needs one by one, and meet half way when both close."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planner.mechanism import ranges_of
from tests.conftest import MakeJob
from tests.mechanism.invented import Device, bar, plate, turns
from tests.shapes import solid_of

LONG, WIDE, HALF = 50.0, 7.0, 9.0


def _device(needs: float) -> Device:
    """Return two jaws, each needed to close by an angle."""
    solids = {
        "palm": solid_of(plate(-1, 30.0)),
        "jaw": solid_of(bar(LONG, WIDE, 0, (0.0, HALF))),
        "thumb": solid_of(bar(LONG, WIDE, 0, (0.0, -HALF))),
    }
    joints = (
        replace(turns("palm", "jaw", 0.0, HALF, -1.0), needs_deg=(0.0, needs)),
        replace(turns("palm", "thumb", 0.0, -HALF), needs_deg=(0.0, needs)),
    )
    return Device(name="jaws", solids=solids, joints=joints, ranges={})


def _half_way_deg() -> float:
    """Return where both tips' corners meet in the middle: L sin t + w cos t = a, w half a width, a half the distance."""
    w = WIDE / 2
    return math.degrees(math.asin(HALF / math.hypot(LONG, w)) - math.atan2(w, LONG))


def test_jaws_that_close_together_meet_half_way(make_job: MakeJob) -> None:
    """Alone each closes by 10 degrees; together they meet at the angle of the formula, and it is said between what."""
    device = _device(10.0)
    found = ranges_of(make_job(device.job_text, **device.solids), device.solids, device.mechanism())

    assert all(one.free_deg[1] is not None and one.free_deg[1] > 10.0 for one in found.joints)
    (met,) = found.together
    assert met.parts == ("jaw", "thumb")
    assert [value for _, value in met.values] == pytest.approx([_half_way_deg()] * 2, abs=0.1)
    assert met.at_mm[1] == pytest.approx(0.0, abs=1.0)


def test_jaws_that_stop_before_each_other_do_not_meet(make_job: MakeJob) -> None:
    """Needed a little less than half way, nothing is said."""
    device = _device(_half_way_deg() - 0.3)
    found = ranges_of(make_job(device.job_text, **device.solids), device.solids, device.mechanism())

    assert found.together == ()


@pytest.mark.parametrize("sense", [1.0, -1.0])
def test_jaws_whose_axes_point_alike_close_to_unlike_ends(make_job: MakeJob, sense: float) -> None:
    """One closes to its low end, the other to its high one: they meet half way all the same; that was not looked at."""
    device = _device(10.0)
    jaw, thumb = device.joints
    alike = replace(jaw, axis=(0.0, 0.0, sense), needs_deg=(-10.0, 0.0) if sense > 0 else (0.0, 10.0))
    other = replace(thumb, axis=(0.0, 0.0, sense), needs_deg=(0.0, 10.0) if sense > 0 else (-10.0, 0.0))
    device = replace(device, joints=(alike, other))
    found = ranges_of(make_job(device.job_text, **device.solids), device.solids, device.mechanism())

    (met,) = found.together
    assert [abs(value) for _, value in met.values] == pytest.approx([_half_way_deg()] * 2, abs=0.1)
