"""Measures that ask for different sizes: a body's proportion, a slip, or another size than theirs."""

from __future__ import annotations

from datetime import date

import pytest

from planner.errors import JobError
from planner.finding import Finding, Verdict
from planner.plan import Prepared, prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import cuboid

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n[size]\n'


def _ready(make_job: MakeJob, wide: float, long: float, governs: str = "") -> Prepared:
    """Return a job whose width asks for one percent and whose length asks for another."""
    each = '[[size.measure]]\nname = "{}"\nkind = "{}"\nrecipient_mm = {}\ndevice_mm = 100.0\n'
    text = HEAD + governs + each.format("wrist", "width", wide) + each.format("forearm", "length", long)
    return prepare(make_job(text, a=cuboid(60, 40, 8)), date(2026, 12, 1))


def _said(ready: Prepared) -> Finding:
    """Return what is said of the size."""
    return next(f for f in check(ready.bound, ready.sizing.percent).findings if f.rule == "size.disagree")


@pytest.mark.parametrize(("long", "verdict"), [(104.9, Verdict.GO), (105.1, Verdict.HOLD), (107.0, Verdict.HOLD)])
def test_seven_percent_is_proportion_and_the_person_says_which_governs(
    make_job: MakeJob, long: float, verdict: Verdict
) -> None:
    """Over 5 % apart is a question of which measure governs, and no word of inches or centimetres."""
    found = _said(_ready(make_job, 100.0, long))

    assert found.verdict is verdict
    assert "inch" not in found.remedy
    assert not found.question or found.question.startswith("Which measure governs the size?")


def test_a_measure_ten_times_off_is_a_slip(make_job: MakeJob) -> None:
    """10.5 for 105 mm is no proportion of any body: measure again."""
    found = _said(_ready(make_job, 100.0, 10.5))

    assert found.verdict is Verdict.HOLD
    assert "cm or inches read as mm" in found.remedy


def test_the_answer_gives_the_size_and_keeps_the_other_in_sight(make_job: MakeJob) -> None:
    """The wrist governs: 100 %, not the forearm's 107; that this is short for the forearm stays a caution."""
    largest, named = _ready(make_job, 100.0, 107.0), _ready(make_job, 100.0, 107.0, 'governs = "wrist"\n')

    assert [largest.sizing.percent, named.sizing.percent] == pytest.approx([107.0, 100.0])
    assert _said(named).verdict is Verdict.GO
    assert "forearm asks for 107.0 %" in _said(named).caution
    assert [measure.governs for measure in named.sizing.measures] == [True, False]


def test_a_measure_that_is_not_there_cannot_govern(make_job: MakeJob) -> None:
    """A slip of the pen is refused, with the nearest name."""
    with pytest.raises(JobError, match="wrist"):
        _ready(make_job, 100.0, 107.0, 'governs = "wirst"\n')


def test_the_ends_that_measures_allow_are_told(make_job: MakeJob) -> None:
    """Both ask for 100 % and 5 % counts as agreement: 100 / 1.05, rounded inward, to 100 · 1.05."""
    found = _said(_ready(make_job, 100.0, 100.0, "percent = 120.0\n"))

    assert found.verdict is Verdict.HOLD
    assert found.remedy.endswith("the measures alone allow 95.3 to 105.0 %")
