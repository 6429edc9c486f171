"""Pieces laid out again for a small bed that would stand idle."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

from planner.job import read_printer
from planner.packing import counted, verify_plate
from planner.plan import Plan, Shared, on_one_calendar
from planner.plan.chapter.small_beds import on_small_beds
from planner.plan.dates.timed_plan import JobPlates
from planner.plan.plates.plate_inputs import PlateInputs
from tests.conftest import MakeJob
from tests.plan.jobs import planned, under
from tests.shapes import cuboid

JOB = """
[job]
name = "tiles"
material = "petg"
mesh_unit = "mm"
[size]
percent = 100.0
[[part]]
name = "tile"
mesh = "tile.stl"
count = 9
duty = "cover"
[plan]
start = 2026-12-01T00:00:00
coupon = "never"
"""
SMALL = "small-180"


def _plan(make_job: MakeJob, **calendar: object) -> Plan:
    """Return a plan of nine tiles of 62 mm on one plate of 220 mm, with a bed of 180 mm beside it, which takes four."""
    job = make_job(JOB, tile=cuboid(62, 62, 12))
    job = replace(job, more_printers=(read_printer(SMALL, Path()),))
    return planned(under(job, unattended=True, first_article=False, one_printer=False, **calendar))


def test_a_small_bed_takes_what_lies_on_it_where_that_makes_the_deadline(make_job: MakeJob) -> None:
    """By hand: three times three tiles fill the large bed, two times two the small one; parted so, the device is ready in time.

    The nine on one plate take T hours, five and four on two printers at once little more than 5/9 T; the deadline is the day before
    the end of T.
    """
    free = _plan(make_job)
    assert [dict(counted(plate.placements)) for plate in free.plates] == [{"tile": 9}]
    hours = free.plates[0].duration_s.value / 3600.0
    start = datetime(2026, 12, 2) - timedelta(hours=0.7 * hours)  # five tiles end before midnight, nine after it
    plan = _plan(make_job, start=start, deadline=start.date(), split="when-needed")
    inputs = PlateInputs.of(plan)
    whole = replace(plan, stage=replace(plan.stage, plates=free.plates, batches=free.batches))
    parted = on_small_beds({"a": whole}, {"a": JobPlates(inputs=inputs, plates=free.plates)})

    assert parted is not None
    found = parted["a"]
    assert Counter(plate.printer for plate in found.plates) == {"bench-220": 1, SMALL: 1}
    assert {plate.printer: dict(counted(plate.placements)) for plate in found.plates} == {
        "bench-220": {"tile": 5},
        SMALL: {"tile": 4},
    }
    assert sorted(p.copy for plate in found.plates for p in plate.placements) == list(range(1, 10))
    assert "tile x 4 of plate 1 on the bed of small-180" in found.parted_why
    bed = read_printer(SMALL, Path()).bed
    rings = {part.part.name: part.outline_mm for part in plan.parts}
    small = next(plate for plate in found.plates if plate.printer == SMALL)
    assert not verify_plate(small.placements, rings, bed=bed, spacing_mm=0.0, brim_mm=small.group.brim_mm)

    chapter = on_one_calendar({"a": whole}, None, Shared()).plans["a"]
    assert chapter.clocks is not None
    assert chapter.clocks.ready is not None
    assert chapter.clocks.ready.date() <= start.date()
    assert {run.printer for run in chapter.runs} == {"bench-220", SMALL}


def test_who_wants_no_plate_parted_and_who_is_in_time_keeps_his_plates(make_job: MakeJob) -> None:
    """With split = "never", or a deadline that is kept, nothing is laid out again."""
    for calendar in ({"split": "never", "deadline": datetime(2026, 12, 1).date()}, {"deadline": None}):
        plan = _plan(make_job, **calendar)
        jobs = {"a": JobPlates(inputs=PlateInputs.of(plan), plates=plan.plates)}
        assert on_small_beds({"a": plan}, jobs) is None
