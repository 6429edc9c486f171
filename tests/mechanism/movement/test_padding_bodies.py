"""Padding takes its room on the side that lies on skin, and keeps its thickness at every size."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planner.job import Padding
from planner.mechanism import ranges_of
from planner.mechanism.movement.padding_bodies import layer_on, padding_bodies
from tests.conftest import MakeJob
from tests.mechanism.invented import Device, bar, block, meets_deg, plate, turns
from tests.shapes import Manifold, cylinder, solid_of

LONG, WIDE, X, Y, FOAM = 40.0, 8.0, 25.0, 12.0, 3.0
DEVICE = Device(
    name="padded",
    solids={"base": solid_of(plate(-1) + block(X, Y, 0)), "arm": solid_of(bar(LONG, WIDE, 0))},
    joints=(turns("base", "arm", 0.0, 0.0),),
    ranges={},
)


@pytest.mark.parametrize("factor", [0.5, 1.0, 2.0])
def test_an_arm_with_foam_on_its_side_stops_before_the_block(make_job: MakeJob, factor: float) -> None:
    """Its side is 4 mm off the axis and 3 mm of foam at size lie on it: as a bar of twice that at 4 + 3 / size."""
    mechanism = DEVICE.mechanism()
    job = make_job(DEVICE.job_text, **DEVICE.solids)
    arm = replace(job.part("arm"), skin_side=True, skin_toward=(0.0, 1.0, 0.0))
    job = replace(
        job, parts=(job.part("base"), arm), paddings=(Padding(part="arm", thickness_mm=FOAM, area_mm2=300.0),)
    )
    soft, notes = padding_bodies(job, DEVICE.solids, mechanism, factor)

    found = ranges_of(job, DEVICE.solids, mechanism, factor=factor, soft=soft).of("base to arm")
    assert found.free_deg[1] == pytest.approx(meets_deg(X, Y, WIDE + 2 * FOAM / factor), abs=0.3)
    assert (found.stops[-1].parts, found.stops[-1].soft) == (("base", "the padding of arm"), True)
    assert notes == ()


def test_padding_whose_side_is_not_stated_takes_no_room_and_is_asked_about(make_job: MakeJob) -> None:
    """A note with the key to write."""
    job = replace(
        make_job(DEVICE.job_text, **DEVICE.solids), paddings=(Padding(part="arm", thickness_mm=FOAM, area_mm2=300.0),)
    )
    soft, (note,) = padding_bodies(job, DEVICE.solids, DEVICE.mechanism(), 1.0)
    assert soft == ()
    assert "write skin_toward of arm" in note


def test_foam_lies_on_what_looks_at_the_skin_and_nowhere_inside() -> None:
    """On a plate with a bore 20 x 10 mm less the bore; in a half tube its inner arc of 120 degrees, thinner toward it."""
    flat = solid_of(Manifold.cube((20.0, 10.0, 4.0)) - cylinder(4.0, 20.0, 96).translate((10.0, 5.0, -5.0)))
    layer = layer_on(flat, (0.0, 0.0, 1.0), 2.0)
    assert layer is not None
    assert layer.volume() == pytest.approx(2.0 * (200.0 - math.pi * 4.0), rel=2e-3)
    tube = cylinder(60.0, 30.0, 180) - cylinder(50.0, 40.0, 180).translate((0.0, 0.0, -5.0))
    half = solid_of(tube - Manifold.cube((100.0, 100.0, 100.0)).translate((-50.0, 0.0, -50.0)))
    inside = layer_on(half, (0.0, 1.0, 0.0), 3.0)
    assert inside is not None
    arc = math.pi / 3.0 * (25.0**2 - 22.0**2) * 30.0
    rims = 2 * 5.0 * 30.0 * 3.0
    assert inside.volume() == pytest.approx(arc + rims, rel=0.03)
