"""A part on another printer: its openings are judged by what that printer does to bores."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from planner.finding import Verdict
from planner.job import Job
from planner.job.profiles.printer import Calibration
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
nut = "plain"
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


def test_settings_are_judged_by_the_printer_that_prints_with_them(make_job: MakeJob) -> None:
    """The wide part's plate runs on a printer that melts 1.5 mm3/s: its flows are work there, the other's are not."""
    job = make_job(
        JOB, wide=bored_plate(300, 290, 4, [(150, 145, 3.6, 48)]), small=bored_plate(30, 20, 4, [(15, 10, 3.6, 48)])
    )
    slow = replace(_with_wider(job, 0.2).more_printers[0], melt_rate_mm3_s=stated(1.5))
    plan = planned(replace(job, more_printers=(slow,)))
    flows = [f for f in plan.findings if f.rule in ("flow.melt", "flow.first")]
    work = [f for f in flows if f.verdict is Verdict.GO_WITH_WORK]

    assert {plate.printer for plate in plan.plates} == {job.printer.name, "big"}
    assert {f.feature for f in work} == {"outer contour", "inner contour", "solid fill", "infill", "first layer"}
    assert all(f.limit == 1.5 and f.why.startswith("on big: ") for f in work)
    assert work == flows
    assert plan.verdict is Verdict.GO_WITH_WORK


def test_a_printer_without_plates_is_not_asked(make_job: MakeJob) -> None:
    """All plates run on the big printer: the job's own, which melts 2 mm3/s, stops nothing and is not named."""
    job = make_job(
        JOB.replace("[[hardware]]", "[[spool]]\nmaterial = 'petg'\n[[hardware]]").split("[[hardware]]")[0],
        wide=bored_plate(300, 290, 4, []),
        small=bored_plate(300, 280, 4, []),
    )
    slow = replace(job, printer=replace(job.printer, melt_rate_mm3_s=stated(2.0)))
    plan = planned(replace(slow, more_printers=(replace(_with_wider(job, 0.2).more_printers[0]),)))
    flows = [f for f in plan.findings if f.rule == "flow.melt"]

    assert {plate.printer for plate in plan.plates} == {"big"}
    assert {f.verdict for f in flows} == {Verdict.GO}
    assert all(f.why.startswith("on big: ") and f.limit == 8.0 for f in flows)


def test_a_word_of_every_printer_that_objects_is_kept(make_job: MakeJob) -> None:
    """The age of measured offsets is told for the printer that has them, where a plate runs on it."""
    job = make_job(
        JOB, wide=bored_plate(300, 290, 4, [(150, 145, 3.6, 48)]), small=bored_plate(30, 20, 4, [(15, 10, 3.6, 48)])
    )
    old = Calibration(material="petg", nozzle_mm=0.4, taken=date(2025, 1, 1))
    big = replace(_with_wider(job, 0.2).more_printers[0], calibrated=True, calibrated_for=old)
    plan = planned(replace(job, more_printers=(big,)))
    told = [f for f in plan.findings if f.rule == "printer.calibrated"]

    assert [f.why.startswith("on big: ") for f in told] == [True]
    assert "days old" in told[0].caution


def test_the_material_is_judged_by_the_printers_that_print_it(make_job: MakeJob) -> None:
    """The job's own printer reaches 200 C at the nozzle, too little for PETG: no hold where all plates run elsewhere."""
    job = make_job(
        JOB.split("[[hardware]]", maxsplit=1)[0], wide=bored_plate(300, 290, 4, []), small=bored_plate(30, 20, 4, [])
    )
    cold = replace(job.printer, nozzle_max_c=stated(200.0))
    everywhere, elsewhere = (
        planned(replace(job, printer=cold, more_printers=(_with_wider(job, 0.2).more_printers[0],), parts=parts))
        for parts in (job.parts, job.parts[:1])
    )
    held = [f for f in everywhere.findings if f.rule == "material.suits"]
    suits = [f for f in elsewhere.findings if f.rule == "material.suits"]

    assert {plate.printer for plate in elsewhere.plates} == {"big"}
    assert [f.verdict for f in suits] == [Verdict.GO]
    assert {plate.printer for plate in everywhere.plates} == {job.printer.name, "big"}
    assert [f.why.startswith("petg: ") for f in held if f.verdict is Verdict.HOLD] == [True]
