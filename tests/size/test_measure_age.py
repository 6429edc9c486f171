"""A measure counts for so many days by the recipient's age; what nobody states is asked, and no date passes in silence."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from planner.finding import Evidence, Finding, Verdict
from planner.size import sizing
from tests.conftest import MakeJob
from tests.shapes import cuboid

START = date(2026, 12, 1)
JOB = """[job]
name = "x"
[[part]]
name = "a"
mesh = "a.stl"
duty = "load"
[[size.measure]]
name = "wrist"
kind = "width"
recipient_mm = 60.0
device_mm = 60.0
"""


def _judged(make_job: MakeJob, days_n: int | None, age_years: float | None = None, plan: str = "") -> Finding:
    """Return what is said of a measure that was taken so many days before the start."""
    taken = "" if days_n is None else f"taken = {START - timedelta(days=days_n)}\n"
    age = "" if age_years is None else f"[use]\nrecipient_age_years = {age_years}\n"
    job = make_job(JOB + taken + age + plan, a=cuboid(30, 20, 6))
    return next(finding for finding in sizing(job, {}, START).findings if finding.rule == "size.stale")


@pytest.mark.parametrize(
    ("days_n", "age_years", "verdict", "evidence"),
    [
        (92, 9.0, Verdict.GO, Evidence.STATED),
        (93, 9.0, Verdict.HOLD, Evidence.STATED),
        (366, 40.0, Verdict.GO, Evidence.STATED),
        (367, 40.0, Verdict.HOLD, Evidence.STATED),
        (92, None, Verdict.GO, Evidence.STATED),
        (93, None, Verdict.HOLD, Evidence.GUESSED),
        (366, None, Verdict.HOLD, Evidence.GUESSED),
        (367, None, Verdict.HOLD, Evidence.STATED),
        (-1, 40.0, Verdict.HOLD, Evidence.STATED),
        (None, 9.0, Verdict.GO, Evidence.STATED),
    ],
)
def test_a_measure_is_judged_by_its_age_and_the_recipient(
    make_job: MakeJob, days_n: int | None, age_years: float | None, verdict: Verdict, evidence: Evidence
) -> None:
    """92 days for a child, 366 for an adult (profiles/limits); in between the age that nobody states decides."""
    found = _judged(make_job, days_n, age_years)

    assert (found.verdict, found.evidence) == (verdict, evidence)
    assert (found.evidence is Evidence.GUESSED) == found.remedy.startswith("if the recipient is under 18")
    assert bool(found.question) == (verdict is Verdict.HOLD)


def test_what_is_said_fits_what_is_known(make_job: MakeJob) -> None:
    """Without a start it is so many days ago; a date to come and a missing one are told as such."""
    assert _judged(make_job, 10, 9.0).why.startswith("wrist was taken 10 days ago")
    assert "10 days before the start" in _judged(make_job, 10, 9.0, f"[plan]\nstart = {START}T17:30:00\n").why
    assert _judged(make_job, -3).why == "wrist is dated 2026-12-04, 3 days after today"
    assert "state `taken`" in _judged(make_job, None).caution
    assert "How old is the recipient?" in _judged(make_job, 200).question


def test_the_days_of_a_measure_are_told_as_a_number_where_they_are_known(make_job: MakeJob) -> None:
    """A measure of the day after the start is -1 days old, in days; one without a day has neither number nor unit."""
    dated, undated = (_judged(make_job, days_n) for days_n in (-1, None))

    assert (dated.measured, dated.unit) == (-1.0, "days")
    assert (undated.measured, undated.unit) == (None, "")
