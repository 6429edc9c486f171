"""A part on another printer: its openings are judged by what that printer does to bores."""

from __future__ import annotations

from dataclasses import replace

from planner.finding import Verdict
from planner.job import Job
from planner.sourced import stated
from tests.conftest import MakeJob
from tests.plan.jobs import planned
from tests.shapes import bored_plate

JOB = """
[job]
name = "two plates"
material = "petg"
mesh_unit = "mm"
[size]
percent = 100.0
[[part]]
name = "wide"
mesh = "wide.stl"
duty = "cover"
[[part]]
name = "small"
mesh = "small.stl"
duty = "cover"
[[hardware]]
name = "screw"
kind = "machine-screw"
diameter_mm = 3.0
bore_mm = 3.6
fit = "sliding"
joins = ["wide", "small"]
count = 1
"""


def _with_wider(job: Job, undersize_mm: float) -> Job:
    """Return a job with a larger printer beside its own, which prints bores that much smaller."""
    bed = replace(job.printer.bed, size_mm=(340.0, 340.0))
    u = stated(undersize_mm)
    undersize = replace(job.printer.undersize, upright_mm=u, lying_mm=u)
    return replace(job, more_printers=(replace(job.printer, name="big", bed=bed, undersize=undersize),))


def test_a_bore_is_judged_by_the_printer_that_prints_it(make_job: MakeJob) -> None:
    """3.6 less 0.9 is 2.7, below the 3.1 that an M3 needs to slide: work on the big printer, none on the job's own."""
    job = make_job(
        JOB, wide=bored_plate(300, 290, 4, [(150, 145, 3.6, 48)]), small=bored_plate(30, 20, 4, [(15, 10, 3.6, 48)])
    )
    told = {}
    for undersize_mm in (0.2, 0.9):
        plan = planned(_with_wider(job, undersize_mm))
        assert {plate.printer for plate in plan.plates} == {job.printer.name, "big"}
        told[undersize_mm] = {f.part: f for f in plan.findings if f.rule == "bore.tight"}

    assert told[0.2]["wide"].verdict is Verdict.GO
    assert told[0.9]["wide"].verdict is Verdict.GO_WITH_WORK
    assert told[0.9]["wide"].why.startswith("on big: ")
    assert told[0.9]["small"] == told[0.2]["small"]
