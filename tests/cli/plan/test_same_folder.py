"""A folder is written again only where the plan says something else, or somebody has changed what lies there."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from planner.cli.plan.same_folder import write_changed
from planner.output.page import plan_folder
from planner.plan import Plan
from tests.conftest import MakeJob
from tests.plan.jobs import job_text, planned
from tests.shapes import cuboid


def _later(plan: Plan, **delay: int) -> Plan:
    """Return a plan whose last moment, that the device is ready, is another one."""
    assert plan.clocks is not None
    assert plan.clocks.ready is not None
    clocks = replace(plan.clocks, ready=plan.clocks.ready + timedelta(**delay))
    return replace(plan, stage=replace(plan.stage, clocks=clocks))


def test_only_what_changed_is_written(make_job: MakeJob, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Once; not again for the same plan; again an hour later, after a file was changed, and for another paper."""
    monkeypatch.setattr(plan_folder, "page", lambda *_: "the report")  # what stands in it is tested elsewhere
    plan = planned(make_job(job_text(("block", 1, "cover")), block=cuboid(20, 20, 4)))
    folder = tmp_path / "out"

    assert write_changed(plan, folder, "a4") is not None
    assert write_changed(plan, folder, "a4") is None
    assert write_changed(_later(plan, hours=1), folder, "a4") is not None
    assert write_changed(plan, folder, "a4") is not None
    report = folder / "report.html"
    report.write_text("scribbled", encoding="utf-8")
    assert write_changed(plan, folder, "a4") is not None
    assert report.read_text(encoding="utf-8") == "the report"
    assert write_changed(plan, folder, "a4") is None
    assert write_changed(plan, folder, "letter") is not None
