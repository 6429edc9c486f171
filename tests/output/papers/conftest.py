"""The Heron's plan, made once for all tests of papers."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from planner.job import read_job
from planner.plan import Plan
from planner.plan.plan import make_plan
from planner.plan.prepare import prepare
from tests.conftest import MakeJob
from tests.shapes import cuboid

TODAY = date(2026, 12, 1)
BARE = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
MakePlan = Callable[..., Plan]


@pytest.fixture(name="plan", scope="session")
def _plan(tmp_path_factory: pytest.TempPathFactory, heron: Path) -> Plan:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("FITWRIGHT_CACHE", str(tmp_path_factory.mktemp("cache")))
        return make_plan(prepare(read_job(heron), TODAY))


@pytest.fixture(name="make_plan_of")
def _make_plan_of(make_job: MakeJob) -> MakePlan:
    """Return a function that plans a small job of one cuboid, with more tables in it."""

    def made(more: str = "", text: str = BARE) -> Plan:
        return make_plan(prepare(make_job(text + more, a=cuboid(60, 40, 5)), TODAY))

    return made
