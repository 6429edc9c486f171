"""The coupon first: where a printer's unmeasured habits decide, it is printed and measured before any plate."""

from __future__ import annotations

import hashlib
import json
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from planner.job import Job
from planner.mesh import read_solid
from planner.output import plan_json, write_plan
from planner.plan import Failure, after_failure, on_one_calendar
from planner.plan.dates.coupon_first import gated
from tests.conftest import MakeJob
from tests.plan.chapter.plates_and_posts import JOB as BLOCKS
from tests.plan.jobs import planned, under
from tests.shapes import bored_plate, cuboid

JOB = """
[job]
name = "one plate, one post"
material = "petg"
mesh_unit = "mm"
[size]
percent = 100.0
[[part]]
name = "plate"
mesh = "plate.stl"
duty = "shell"
[[hardware]]
name = "post"
kind = "binding-post"
diameter_mm = 5.0
bore_mm = 5.45
fit = "turning"
joins = ["plate"]
count = 1
[plan]
start = 2026-12-01T08:00:00
attended = ["Mon-Fri 17:30-22:30"]
"""


def _job(make_job: MakeJob, *, calibrated: bool = False, **calendar: Any) -> Job:
    """Return the job, on a measured printer or not, with some of its calendar changed."""
    job = under(make_job(JOB, plate=bored_plate(40, 30, 6, [(20.0, 15.0, 5.45, 64)])), **calendar)
    return replace(job, printer=replace(job.printer, calibrated=calibrated))


def test_everything_waits_for_a_coupon_that_decides(make_job: MakeJob) -> None:
    """5.45 less 0.2 takes the post, less 0.3 does not: a coupon first, within an attended window, then measured."""
    job = _job(make_job)
    plan = planned(job)
    first = plan.coupon

    assert first is not None
    assert "plate" in first.why
    assert first.start == datetime(2026, 12, 1, 17, 30)
    assert first.end is not None
    assert first.measured is not None
    cleared = first.end + timedelta(seconds=job.printer.plate_change_s.value)
    assert first.measured >= cleared + timedelta(minutes=first.hands_min)
    assert all(run.start is not None and run.start >= first.measured for run in plan.runs)
    assert "coupon on bench-220" in first.tonight


def test_its_grams_are_in_no_total(make_job: MakeJob) -> None:
    """Totals are those of the plates, with and without a coupon."""
    totals = [planned(_job(make_job, coupon=wish)).totals for wish in ("always", "never")]

    assert totals[0] == totals[1]


@pytest.mark.parametrize(
    ("calibrated", "wish", "comes"),
    [
        (False, "when-it-decides", True),
        (True, "when-it-decides", False),
        (False, "never", False),
        (True, "always", True),
    ],
)
def test_it_comes_where_it_is_wanted(make_job: MakeJob, *, calibrated: bool, wish: str, comes: bool) -> None:
    """Not for a measured printer, unless the job asks for it."""
    plan = planned(_job(make_job, calibrated=calibrated, coupon=wish))

    assert (plan.coupon is not None) == comes


def test_without_a_calendar_it_has_no_date(make_job: MakeJob) -> None:
    """What to print first is told all the same."""
    plan = planned(replace(_job(make_job), calendar=None))

    assert plan.coupon is not None
    assert plan.coupon.start is None


def test_its_mesh_is_written_and_a_form_that_is_filled_in_stays(make_job: MakeJob, tmp_path: Path) -> None:
    """The mesh reads back and is in the manifest by its SHA-256; a second plan writes a new form beside a filled one."""
    plan, folder = planned(_job(make_job)), tmp_path / "out"
    write_plan(plan, folder)
    told: Any = plan_json(plan)["coupon"]
    form = folder / told["readings"]
    filled = form.read_text(encoding="utf-8") + "# 4.87 by drill shank\n"
    form.write_text(filled, encoding="utf-8")
    write_plan(plan, folder)

    assert read_solid(folder / told["mesh"]).sound
    hashes = json.loads((folder / "plates" / "manifest.json").read_text(encoding="utf-8"))
    assert hashlib.sha256((folder / told["mesh"]).read_bytes()).hexdigest() in json.dumps(hashes)
    assert form.read_text(encoding="utf-8") == filled
    assert (form.parent / "readings-new.toml").is_file()


def test_after_a_failed_plate_no_coupon_comes_again(make_job: MakeJob) -> None:
    """It was printed before the plate."""
    plan = planned(_job(make_job))
    after = after_failure(plan, Failure(plate=1, at_s=600.0, cause="loose", lost={}))

    assert plan.coupon is not None
    assert after.left.coupon is None


def test_a_coupon_gates_only_printers_that_were_not_measured(make_job: MakeJob) -> None:
    """Of two printers one was measured before: its plates begin at once, those of the other when its coupon is measured."""
    job = make_job(BLOCKS, plate=bored_plate(40, 30, 6, [(20.0, 15.0, 5.45, 64)]), block=cuboid(60, 40, 12))
    measured = replace(job.printer, name="measured", calibrated=True)
    job = replace(job, more_printers=(measured,))
    job = under(job, coupon="always", first_article=False, one_printer=False)
    alone = planned(job)
    together = on_one_calendar({"a": alone, "b": planned(job)}).plans["a"]

    for plan in (alone, together):
        assert plan.coupon is not None
        assert plan.coupon.measured is not None
        assert min(run.start for run in plan.runs if run.printer == "measured" and run.start) < plan.coupon.measured
        assert all(r.start and r.start >= plan.coupon.measured for r in plan.runs if r.printer != "measured")


def test_a_coupon_gates_no_other_machine(make_job: MakeJob) -> None:
    """However long one printer is busy before its coupon, another that nobody has measured waits for its own alone, and that is told."""
    job = make_job(BLOCKS, plate=bored_plate(40, 30, 6, [(20.0, 15.0, 5.45, 64)]), block=cuboid(60, 40, 12))
    twice = tuple(replace(part, count=2 * part.count) for part in job.parts)  # more than one evening of one printer
    job = replace(job, parts=twice, more_printers=(replace(job.printer, name="other"),))
    job = under(job, coupon="always", first_article=False, one_printer=False)
    plan = planned(job)
    first = plan.coupon

    assert first is not None
    assert first.measured is not None
    later = gated(job, replace(first, measured=first.measured + timedelta(days=9)))
    assert later == {job.printer.name: first.measured + timedelta(days=9), "other": first.measured}
    assert plan.clocks is not None
    on_other = any(run.printer == "other" for run in plan.runs)
    assert on_other == any("coupon of its own" in note for note in plan.clocks.table.notes)
    assert on_other
