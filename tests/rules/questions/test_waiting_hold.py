"""A hold about the unit, or the measure that governs, names the question that settles it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from planner.finding import Evidence, Verdict
from planner.job import job_of_folder, read_printer, with_edits
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import bored_plate, cuboid, written

TODAY = date(2026, 12, 1)
MEASURES = """[job]
name = "x"
material = "petg"
[[size.measure]]
name = "forearm"
kind = "width"
recipient_mm = 60.0
device_mm = 50.0
[[size.measure]]
name = "hand"
kind = "length"
recipient_mm = 180.0
device_mm = 180.0
[[part]]
name = "a"
mesh = "a.stl"
duty = "cover"
"""


def test_a_unit_that_nobody_named_is_one_question(tmp_path: Path) -> None:
    """A device 4 long in its files' numbers holds for the unit; answered in inches, nothing waits for it any more."""
    written(bored_plate(4, 3, 0.5, [(2, 1.5, 0.26, 48)]), tmp_path / "base.stl")
    job = job_of_folder(tmp_path, printer=read_printer("bench-220", Path()), mesh_unit=None)
    ready = prepare(job, TODAY)
    checked = check(ready.bound, 100.0)

    waits = [f for f in checked.findings if f.question_id == "unit"]
    assert [(f.rule, f.verdict, f.evidence) for f in waits] == [("mesh.unit", Verdict.HOLD, Evidence.GUESSED)]
    assert checked.questions[0].id == "unit"
    assert "inch" in [name for name, _ in checked.questions[0].options]
    edits = next(one.doubt for one in ready.asked if one.doubt.id == "unit").option("inch").edits
    after = check(prepare(with_edits(job, edits), TODAY).bound, 100.0)
    assert [f for f in after.findings if f.rule == "mesh.unit" and not f.verdict.passes] == []


def test_measures_apart_ask_which_governs(make_job: MakeJob) -> None:
    """120 % for the forearm and 100 % for the hand: the hold names the question."""
    ready = prepare(make_job(MEASURES, a=cuboid(60, 40, 4)), TODAY)
    held = [f for f in check(ready.bound, ready.sizing.percent).findings if f.rule == "size.disagree"]

    assert {(f.verdict, f.question_id) for f in held if not f.verdict.passes} == {(Verdict.HOLD, "size-governs")}
