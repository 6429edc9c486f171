"""Shorter plates: parted where jobs are late beside each other, and only where that helps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

import pytest

from planner.job import Attended
from planner.plan import Plan, on_one_calendar
from planner.plan.dates import timed_plan
from tests.conftest import MakeJob
from tests.plan.chapter.plates_and_posts import JOB
from tests.plan.jobs import changed, planned, under
from tests.shapes import bored_plate, cuboid

MONDAY = date(2026, 12, 7)
"""After the only Saturday from the start on."""


def test_plates_are_parted_where_jobs_are_late_beside_each_other(
    make_job: MakeJob, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each alone is in time on the one Saturday; together one printer cannot, unless evenings are used: then none is late."""
    # Ways out of lateness are told beside a calendar and are tested elsewhere: they would take most of the time.
    monkeypatch.setattr(timed_plan, "ways_out", lambda jobs, *_: ((),) * len(jobs))
    weeks = (
        Attended(days=(0, 1, 2, 3, 4), from_min=17 * 60 + 30, to_min=22 * 60 + 30),
        Attended(days=(5,), from_min=480, to_min=1380),
    )
    text = JOB.replace("count = 3", "count = 7")
    job = make_job(text, plate=bored_plate(40, 30, 6, [(20.0, 15.0, 5.45, 64)]), block=cuboid(60, 50, 20))
    alone = planned(under(job, attended=weeks, deadline=MONDAY, coupon="never"))
    plans = dict.fromkeys("ab", alone)
    never = {
        name: changed(plan, job=replace(plan.job, calendar=replace(plan.job.calendar, split="never")))
        for name, plan in plans.items()
        if plan.job.calendar is not None
    }

    def late_n(some: Mapping[str, Plan]) -> int:
        return sum(
            plan.clocks is not None and plan.clocks.ready is not None and plan.clocks.ready.date() > MONDAY
            for plan in some.values()
        )

    together = on_one_calendar(plans)
    assert late_n(plans) == 0
    assert late_n(on_one_calendar(never).plans) > 0
    assert late_n(together.plans) == 0
    for name, plan in together.plans.items():
        copies = sorted((p.part, p.copy) for plate in plan.plates for p in plate.placements)
        assert copies == sorted((p.part, p.copy) for plate in plans[name].plates for p in plate.placements)
        assert len(plan.batches) == len(plan.plates) == len(plan.runs)
        assert plan.totals.duration_s is not None
        assert plan.totals.duration_s.value == pytest.approx(sum(plate.duration_s.value for plate in plan.plates))
