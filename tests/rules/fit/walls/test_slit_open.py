"""A slit that prints narrower than the printer keeps open is asked about, and a person may lift that."""

from __future__ import annotations

from datetime import date

import pytest
from manifold3d import Manifold

from planner.finding import Finding, Verdict
from planner.job import with_changes
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of

JOB = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "shell"\n'


def _found(make_job: MakeJob, wide_mm: float, percent: float, more: str = "") -> list[Finding]:
    """Return what is said of the slit of a collet."""
    tube = cylinder(20.0, 25.0, 96) - cylinder(12.0, 60.0, 96).translate((0, 0, -9))
    slit = Manifold.cube((20.0, wide_mm, 30.0)).translate((0.0, -wide_mm / 2, 5.0))
    job = with_changes(make_job(JOB + more, a=solid_of(tube - slit, "a")), percent=percent)
    return [f for f in check(prepare(job, date(2026, 12, 1)).bound, percent).findings if f.rule == "gap.slit"]


@pytest.mark.parametrize(("percent", "verdict"), [(76.0, Verdict.GO), (74.0, Verdict.HOLD)])
def test_a_slit_of_0_4_mm_stays_open_down_to_75_percent(make_job: MakeJob, percent: float, verdict: Verdict) -> None:
    """A printer keeps 0.3 mm open (its profile: common practice): 0.4 s is that at s = 0.75."""
    (found,) = _found(make_job, 0.4, percent)

    assert found.verdict is verdict
    assert bool(found.question) is (verdict is Verdict.HOLD)
    assert "at 75.0 % or more" in found.remedy or verdict is Verdict.GO


def test_a_person_may_say_that_the_slit_may_close(make_job: MakeJob) -> None:
    """An override lifts the hold, with its reason."""
    lifted = '[[override]]\nrule = "gap.slit"\npart = "a"\nreason = "glued"\nrole = "maker"\n'
    (found,) = _found(make_job, 0.1, 100.0, lifted)

    assert found.verdict is not Verdict.HOLD
