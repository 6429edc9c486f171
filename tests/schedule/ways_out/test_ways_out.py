"""Ways out: every one is written into the job file and planned, and what was promised is kept."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from planner.plan import Plan
from tests.conftest import MakeJob
from tests.plan.jobs import job_text, planned
from tests.shapes import cuboid

HEAD = job_text(("block", 4, "load"), ("lid", 2, "cover"), ("heel", 3, "pin"), plan="deadline = 2026-12-01\n")
PLANS: dict[str, dict[str, str]] = {
    "evenings": {"attended": '["Mon-Fri 20:30-24:00"]', "split": '"never"'},
    "two": {
        "attended": '["Mon-Fri 20:30-24:00"]',
        "unattended": "true",
        "quiet": '["Mon-Sun 00:00-10:00"]',
        "people": "1",
        "printers": '["bench-220", "bench-220"]',
    },
}
CHANGED: dict[str, dict[str, str]] = {
    "unattended": {"unattended": "true"},
    "h longer": {"attended": '["Mon-Fri 19:00-24:00", "Mon-Fri 18:30-19:00"]'},
    "Saturdays": {"attended": '["Mon-Fri 20:30-24:00", "Sat-Sun 08:00-23:00"]'},
    "quiet": {"quiet": "[]"},
    "people": {"people": "2"},
    "several printers": {"one_printer": "false"},
    "looked at": {"first_article": "false"},
    "one more printer": {"printers": '["bench-220", "bench-220"]', "people": "1"},
    "split the plates": {"split": '"when-needed"'},
}
"""What a person writes into [plan] for each way, found by words of its sentence."""


@pytest.fixture(autouse=True)
def _kept_here(monkeypatch: pytest.MonkeyPatch, kept_in_run: Path) -> None:
    """Measure, lay and time each block once for all plans of it: what is tried here is the calendar's change."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(kept_in_run))


def _planned(make_job: MakeJob, keys: Mapping[str, str]) -> Plan:
    """Plan the job with some keys in its [plan]."""
    text = HEAD + "".join(f"{key} = {value}\n" for key, value in keys.items())
    job = make_job(text, block=cuboid(60, 60, 22), lid=cuboid(70, 60, 10), heel=cuboid(70, 60, 10))
    return planned(job)


@pytest.mark.parametrize("name", PLANS)
def test_what_a_way_promises_is_kept(make_job: MakeJob, name: str) -> None:
    """Each change, written into the job file, is ready by the promised minute, or nothing was promised."""
    before = PLANS[name]
    plan = _planned(make_job, before)
    assert plan.clocks is not None
    ways = plan.clocks.ways

    assert len(ways) >= 3
    for way in ways[:-1]:
        words = next(words for words in CHANGED if words in way.what)
        change = dict(CHANGED[words])
        if words == "one more printer" and "printers" in before:
            change["printers"] = '["bench-220", "bench-220", "bench-220"]'
        again = _planned(make_job, {**before, **change}).clocks
        assert again is not None
        assert way.costs
        if way.ready is None:
            assert len(again.table.unmet) <= way.unmet_n
        else:
            assert again.ready is not None
            assert again.ready <= way.ready, way.what


def test_the_last_way_is_the_deadline_that_would_be_met(make_job: MakeJob) -> None:
    """A job that is ready, but late, is in time by the date that it has."""
    keys = {**PLANS["two"]}
    plan = _planned(make_job, keys)
    assert plan.clocks is not None
    assert plan.clocks.ready is not None
    last = plan.clocks.ways[-1]

    assert last.what.startswith("agree on")
    assert last.ready == plan.clocks.ready
    assert last.late_days == 0
    assert "of waiting" in last.costs
