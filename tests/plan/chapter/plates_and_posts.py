"""Jobs of these tests: a plate and some blocks for one printer, in evenings."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from typing import Any

from planner.packing import Run
from planner.plan import Plan
from tests.conftest import MakeJob
from tests.plan.jobs import planned, under
from tests.shapes import bored_plate, cuboid

JOB = """
[job]
name = "plates and posts"
material = "petg"
mesh_unit = "mm"
[size]
percent = 100.0
[[part]]
name = "plate"
mesh = "plate.stl"
duty = "shell"
[[part]]
name = "block"
mesh = "block.stl"
count = 3
duty = "cover"
[[hardware]]
name = "post"
kind = "binding-post"
diameter_mm = 5.0
bore_mm = 5.45
fit = "turning"
joins = ["plate"]
count = 1
[plan]
start = 2026-12-01T17:30:00
attended = ["Mon-Fri 17:30-22:30"]
"""


def plan_of(make_job: MakeJob, **calendar: Any) -> Plan:
    """Plan the job with some of its calendar changed."""
    job = make_job(JOB, plate=bored_plate(40, 30, 6, [(20.0, 15.0, 5.45, 64)]), block=cuboid(60, 40, 12))
    return planned(under(job, **calendar))


def met(runs: Sequence[Run]) -> list[tuple[Run, Run]]:
    """Return runs that are on one printer at once."""
    timed = [run for run in runs if run.start is not None and run.end is not None]
    return [
        (one, other)
        for one, other in combinations(timed, 2)
        if one.printer == other.printer and one.start < other.end and other.start < one.end  # type: ignore[operator]
    ]
