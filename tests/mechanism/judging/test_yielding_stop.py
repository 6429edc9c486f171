"""What stops a joint is a question where another joint, which stood as drawn, lets it pass by going aside."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.mechanism import ranges_of
from planner.mechanism.judging.yielding_stop import gives_way
from tests.conftest import MakeJob
from tests.mechanism.invented import HIGH, LEVEL, Device, bar, block, plate, turns
from tests.shapes import Manifold, solid_of

LONG = 40.0


def _arm_on_arm(aside: tuple[float, float] | None) -> Device:
    """Return an arm on an arm; the outer one meets a block on the base when the inner one turns, if it stays straight."""
    high = block(LONG + 25.0, 14.0, 1, high=HIGH) + Manifold.cube((6.0, 6.0, 2 * LEVEL)).translate(
        (LONG + 19.0, 14.0, -LEVEL)
    )
    inner, outer = turns("base", "inner", 0.0, 0.0), turns("inner", "outer", LONG, 0.0)
    return Device(
        name="arm on arm",
        solids={
            "base": solid_of(plate(-1, 80.0) + high),
            "inner": solid_of(bar(LONG, 8.0, 0)),
            "outer": solid_of(bar(30.0, 8.0, 1, (LONG, 0.0))),
        },
        joints=(replace(inner, needs_deg=(0.0, 25.0)), replace(outer, needs_deg=aside)),
        ranges={},
    )


@pytest.mark.parametrize(("aside", "asked"), [((-60.0, 0.0), True), (None, True), ((-2.0, 2.0), False)])
def test_an_arm_that_may_bend_aside_is_asked_about(
    make_job: MakeJob, aside: tuple[float, float] | None, asked: bool
) -> None:
    """Straight, it meets the block at about 9 degrees; bent by 60 it passes it, bent by 2 it does not."""
    device = _arm_on_arm(aside)
    job, mechanism = make_job(device.job_text, **device.solids), device.mechanism()
    joint = mechanism.joint("base to inner")
    stop = ranges_of(job, device.solids, mechanism).of(joint.name).stops[-1]
    assert stop.parts == ("base", "outer")
    assert 0.0 < stop.at_deg < 20.0

    found = gives_way(job, device.solids, mechanism, joint, stop.parts, 1, 25.0)
    assert ("May inner to outer go to" in found) is asked
