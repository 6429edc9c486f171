"""Jobs of these tests: a calendar changed in some keys, and a plan made on a day in November."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from planner.job import Job
from planner.plan import Plan
from planner.plan.plan import make_plan
from planner.plan.prepare import prepare


def under(job: Job, **calendar: Any) -> Job:
    """Return the job with some of its calendar changed."""
    assert job.calendar is not None
    return replace(job, calendar=replace(job.calendar, **calendar))


def planned(job: Job) -> Plan:
    """Plan a job."""
    return make_plan(prepare(job, date(2026, 11, 26)))
