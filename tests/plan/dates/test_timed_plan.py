"""How often the deadline is kept: in which of the simulated runs the work by hand ends by its day."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import Any

from planner.finding import Verdict
from planner.job import Job
from planner.output import plan_json
from planner.plan import Plan, timing_findings
from tests.conftest import MakeJob
from tests.plan.jobs import job_text, planned, under
from tests.shapes import cuboid

JOB = job_text(("block", 6, "cover"), plan='attended = ["Mon-Fri 17:30-22:30"]\nsplit = "never"\n')


def _by(job: Job, deadline: date | None) -> Plan:
    """Plan a job with a deadline."""
    return planned(under(job, deadline=deadline))


def test_the_share_of_kept_deadlines_agrees_with_the_dates_of_the_runs(make_job: MakeJob) -> None:
    """The day that 90 of 100 keep is kept by 90 or more, the day before the first end by none, a far one by all."""
    job = make_job(JOB, block=cuboid(60, 40, 12))
    bare = _by(job, None).clocks
    assert bare is not None
    assert bare.ready is not None
    assert bare.ready_p90 is not None
    assert bare.kept_percent is None
    plans = [_by(job, day) for day in (date(2026, 12, 1), bare.ready_p90.date(), date(2027, 11, 1))]
    kept = [plan.clocks.kept_percent for plan in plans if plan.clocks and plan.clocks.kept_percent is not None]

    assert bare.ready.date() > date(2026, 12, 1) or kept[0] > 0
    assert kept[1] >= 90.0
    assert kept == sorted(kept)
    assert kept[2] > 99.0
    told: Any = plan_json(plans[1])
    assert told["clocks"]["deadline_kept_percent"] == kept[1]
    assert told["clocks"]["ready_expected"] is not None


def test_a_fitting_after_the_deadline_is_told(make_job: MakeJob) -> None:
    """Two dates that no way keeps both: one sentence names both; a fitting on the deadline's day is none."""
    job = make_job(JOB, block=cuboid(60, 40, 12))
    plan = _by(job, date(2026, 12, 4))
    assert plan.job.calendar is not None

    def told(day: int) -> list[str]:
        calendar = replace(plan.job.calendar, fitting=datetime(2026, 12, day, 10))  # type: ignore[type-var]
        found = timing_findings(replace(plan.job, calendar=calendar), plan.clocks)
        return [f.caution for f in found if f.feature == "fitting"]

    assert "Mon 7 Dec 10:00 is after the deadline, Fri 4 Dec" in told(7)[0]
    assert told(4) == []


def test_a_missed_fitting_is_a_hold(make_job: MakeJob) -> None:
    """Somebody comes on that day: ready the evening after is a hold, ready before it is none."""
    job = under(make_job(JOB, block=cuboid(60, 40, 12)), fitting=datetime(2026, 12, 1, 18, 0))
    early, late = planned(under(job, fitting=datetime(2026, 12, 11, 18, 0))), planned(job)

    assert [f.verdict for f in late.findings if f.rule == "plan.late"] == [Verdict.HOLD]
    assert "only ready to be fitted on" in late.findings[0].why
    assert not [f for f in early.findings if f.rule == "plan.late"]
