"""A part that prints in place: its bodies stay apart, or it is a hold that asks whether they are to move."""

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


def _found(make_job: MakeJob, gap_mm: float, percent: float, more: str = "") -> list[Finding]:
    """Return what is said of a ring and a core in it, in one mesh, ``gap_mm`` apart all round."""
    ring = cylinder(40.0, 6.0, 96) - cylinder(20.0 + 2 * gap_mm, 20.0, 96).translate((0, 0, -5))
    mesh = solid_of(Manifold.compose([ring, cylinder(20.0, 6.0, 96)]), "a")
    job = with_changes(make_job(JOB + more, a=mesh), percent=percent)
    bound = prepare(job, date(2026, 12, 1)).bound
    return [f for f in check(bound, percent).findings if f.rule == "gap.inside"]


@pytest.mark.parametrize(("percent", "verdict"), [(100.0, Verdict.GO), (76.0, Verdict.GO), (74.0, Verdict.HOLD)])
def test_a_gap_of_0_4_mm_stays_open_down_to_75_percent(make_job: MakeJob, percent: float, verdict: Verdict) -> None:
    """A printer keeps 0.3 mm open (its profile: common practice): 0.4 s is that at s = 0.75."""
    (found,) = _found(make_job, 0.4, percent)

    assert found.verdict is verdict
    assert bool(found.question) is (verdict is Verdict.HOLD)
    assert "75.1 % or more" in found.remedy or verdict is Verdict.GO


def test_a_person_may_say_that_the_bodies_are_one_piece(make_job: MakeJob) -> None:
    """An override lifts the hold, with its reason."""
    lifted = '[[override]]\nrule = "gap.inside"\npart = "a"\nreason = "glued"\nrole = "maker"\n'
    (found,) = _found(make_job, 0.1, 100.0, lifted)

    assert found.verdict is not Verdict.HOLD


def test_bodies_that_print_far_apart_are_not_spoken_of(make_job: MakeJob) -> None:
    """Two pieces on one plate, 3 mm apart."""
    assert _found(make_job, 3.0, 50.0) == []
