"""The reference of ``plan.json`` has the keys of real plans, and every one of its tables is met."""

from __future__ import annotations

import json
from typing import Any

from planner.output import plan_json
from planner.output.json.keys.plan_keys import PLAN
from tests.conftest import MakeJob
from tests.output.json.keys.plan_shape import misfits
from tests.plan.jobs import planned
from tests.shapes import Manifold, bored_plate, cuboid, solid_of

LATE = """
[job]
name = "late"
[size]
[[size.measure]]
name = "width"
kind = "width"
recipient_mm = 62.0
device_mm = 60.0
ease_mm = 3.0
[[part]]
name = "deck"
mesh = "deck.stl"
duty = "load"
[[part]]
name = "block"
mesh = "block.stl"
count = 2
duty = "cover"
[[hardware]]
name = "post"
kind = "binding-post"
diameter_mm = 5.0
bore_mm = 5.3
fit = "turning"
joins = ["deck"]
[[strap]]
name = "strap"
part = "block"
webbing_mm = 25.0
slot_mm = 22.0
around_mm = 150.0
[[spool]]
material = "petg"
left_g = 500.0
[[spool]]
material = "tpu"
[plan]
start = 2026-12-01T17:30:00
deadline = 2026-12-02
attended = ["Sat-Sun 09:00-22:00"]
"""
THIN = """
[[part]]
name = "lid"
mesh = "lid.stl"
[[part]]
name = "flap"
mesh = "flap.stl"
"""
"""A part that is too thin for any duty, and one whose duty decides."""


def _misfits(make_job: MakeJob, text: str) -> tuple[list[str], set[str]]:
    """Plan a job of two or three solids and hold its JSON against the reference."""
    block = solid_of(Manifold.cube((60, 40, 12)) - Manifold.cube((22, 4, 14)).translate((19, 18, -1)))
    deck = bored_plate(60, 40, 8, [(15, 15, 5.3, 48)])
    job = make_job(text, deck=deck, block=block, lid=cuboid(20, 20, 0.5), flap=cuboid(20, 20, 1.0))
    told: Any = json.loads(json.dumps(plan_json(planned(job)), allow_nan=False))
    return misfits(told)


def test_real_plans_fit_the_reference_and_meet_every_table_of_it(make_job: MakeJob) -> None:
    """A late job with hardware, a strap, spools and an unmeasured bore; and one without dates, with a lid too thin."""
    late, met = _misfits(make_job, LATE)
    wide = LATE.replace("webbing_mm = 25.0", "webbing_mm = 38.0")  # 25 mm is tried first, and fails in a slot of 22
    bare, met_too = _misfits(make_job, wide.split("[plan]", maxsplit=1)[0] + THIN)

    assert late + bare == []
    assert set(PLAN) - met - met_too == set()
