"""Settings at size are judged on every printer that can run the job, and the change that helps suits all of them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from planner.finding import Verdict
from planner.job import Job
from planner.plan import judged_settings, prepare
from planner.plan.settings_at_size import layers_on_plates
from planner.sourced import stated
from tests.conftest import MakeJob
from tests.plan.jobs import planned
from tests.shapes import cuboid, cylinder, solid_of

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\n'
    'duty = "load"\npose = [0, 0, -1]\n'
)


def _beside(job: Job, **changes: object) -> Job:
    """Return a job with a second printer, its own but for some numbers."""
    return replace(job, more_printers=(replace(job.printer, name="other", **changes),))  # type: ignore[arg-type]


def test_a_weaker_printer_beside_the_jobs_own_is_asked(make_job: MakeJob) -> None:
    """Infill of 6.5 mm3/s melts on the job's own printer and not on one for 4; 49 mm/s suits both: 4 / 0.0814."""
    job = _beside(make_job(TEXT, a=cuboid(20, 20, 5)), melt_rate_mm3_s=stated(4.0))
    judged = judged_settings(prepare(job, date(2026, 12, 1)))
    flows = [f for f in judged.findings if f.rule == "flow.melt" and f.verdict is Verdict.GO_WITH_WORK]

    assert judged.printers == ("bench-220", "other")
    assert {f.feature for f in flows} == {"inner contour", "solid fill", "infill"}
    assert all(f.why.startswith("on other: ") for f in flows)
    assert {c.key: c.after for c in judged.changes}["infill_speed_mm_s"] == 49.0
    assert judged.after is Verdict.GO


def test_a_printer_that_cannot_run_the_job_is_left_aside_and_named(make_job: MakeJob) -> None:
    """A nozzle of 0.8 mm is none for these settings: it spoils no verdict, and the reason is told."""
    job = _beside(make_job(TEXT, a=cuboid(20, 20, 5)), nozzle_mm=stated(0.8))
    judged = judged_settings(prepare(job, date(2026, 12, 1)))

    assert judged.printers == ("bench-220",)
    assert "0.8 mm" in judged.aside["other"]
    assert not [f for f in judged.findings if f.why.startswith("on other")]


def test_parts_on_one_plate_give_each_other_time_to_cool(make_job: MakeJob) -> None:
    """A pin's layers take 1 to 2 s, too short for 3 s a layer alone; beside a block of 18 s a layer nothing is short."""
    pin = solid_of(cylinder(4, 10, 48))
    text = (
        TEXT
        + '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "pin"\npose = [0, 0, -1]\n[settings]\nleast_layer_s = 3.0\n'
    )
    job = make_job(text, a=cuboid(40, 30, 10), b=pin)
    alone = [f for f in judged_settings(prepare(job, date(2026, 12, 1))).findings if f.rule == "layer.cool"]
    beside = [f for f in planned(job).findings if f.rule == "layer.cool"]

    assert [f.verdict for f in alone] == [Verdict.GO_WITH_WORK]
    assert [f.verdict for f in beside] == [Verdict.GO]


def test_a_plate_in_turn_gives_no_time(make_job: MakeJob) -> None:
    """One after the other, a layer takes what its own copy takes; together, what all of them take."""
    job = make_job(TEXT.replace('"load"', '"load"\ncount = 2'), a=cuboid(20, 20, 5))
    (plate,) = planned(job).plates
    alone = planned(job).parts[0].estimate
    assert alone is not None

    assert layers_on_plates([plate], {"a": alone})["a"] == pytest.approx([2 * s for s in alone.layer_s])
    assert layers_on_plates([replace(plate, in_turn=True)], {"a": alone})["a"] == alone.layer_s
