"""What the calendar says about itself: a deadline that is past, and hands that find no time, never pass in silence."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from planner.job import Attended, Calendar, Printer
from planner.plan import timing_findings
from planner.schedule import Clocks, JobLoads, PlateLoad, timetables
from tests.conftest import MakeJob
from tests.shapes import cuboid

JOB = '[job]\nname = "n"\nprinter = "bench-220"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'


def test_a_past_deadline_and_hands_without_time_are_told(make_job: MakeJob, printer: Printer) -> None:
    """A deadline nine days before the start, and steps that never end: two cautions that name the number and the key."""
    calendar = Calendar(
        start=datetime(2026, 12, 10, 17, 30),
        deadline=date(2026, 12, 1),
        attended=(Attended(days=(1,), from_min=1050, to_min=1350),),
    )
    job = replace(make_job(JOB, a=cuboid(10, 10, 10)), calendar=calendar)
    load = PlateLoad(plate=1, takes_s={printer.name: 3600.0})
    table = timetables([JobLoads(loads=(load,), calendar=calendar, printers=(printer,))])[0]
    clocks = Clocks(
        table=table,
        steps=None,
        leeways={},
        printing_s=3600.0,
        hands_min=0,
        ready=None,
        ready_p90=None,
        ways=(),
        barred=(),
    )
    told = {finding.rule: finding.why for finding in timing_findings(job, clocks)}

    assert "9 d before the plan's start" in told["plan.past"]
    assert "within a year" in told["plan.no-hands"]
    assert "no date at all" in told["plan.late"]
