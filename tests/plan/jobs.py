"""Jobs of these tests: a calendar changed in some keys, and a plan made on a day in November."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from planner.job import Job
from planner.packing import Run
from planner.plan import Plan, make_plan, prepare


def job_text(*parts: tuple[str, int, str], plan: str = "") -> str:
    """Return a job of parts (name, count, duty), each with the mesh of its name, and keys of its [plan]."""
    head = '[job]\nname = "blocks"\nmaterial = "petg"\nmesh_unit = "mm"\n[size]\npercent = 100.0\n'
    rows = [f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\ncount = {count}\nduty = "{duty}"\n' for n, count, duty in parts]
    return "".join((head, *rows, "[plan]\nstart = 2026-12-01T17:30:00\n", plan))


def under(job: Job, **calendar: Any) -> Job:
    """Return the job with some of its calendar changed."""
    assert job.calendar is not None
    return replace(job, calendar=replace(job.calendar, **calendar))


def planned(job: Job) -> Plan:
    """Plan a job."""
    return make_plan(prepare(job, date(2026, 11, 26)))


def changed(plan: Plan, *, runs: Sequence[Run] | None = None, **facts: Any) -> Plan:
    """Return a plan with other facts in its stage (``job``, ``coupon``, ``parts``, ``runs`` …), judged as it was."""
    stage, parts = plan.stage, facts.pop("parts", None)
    if runs is not None:
        assert stage.clocks is not None
        facts["clocks"] = replace(stage.clocks, table=replace(stage.clocks.table, runs=tuple(runs)))
    if parts is not None:
        facts["laid"] = replace(stage.laid, sized=replace(stage.sized, parts=parts))
    return replace(plan, stage=replace(stage, **facts))
