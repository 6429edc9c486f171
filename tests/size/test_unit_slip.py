"""Published sizes of bodies catch cm and inches for mm, and judge no limb."""

from __future__ import annotations

import csv
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import JobError
from planner.job import Measure, Use
from planner.job.profiles.body_sizes import read_bodies
from planner.plan import prepare
from planner.rules import check
from planner.size.unit_slip import slips
from tests.conftest import MakeJob
from tests.shapes import DATA, cuboid

TODAY = date(2026, 12, 1)
MEASURE = (
    '[job]\nname = "x"\nmaterial = "petg"\n[use]\nrecipient_age_years = 9\n[[size.measure]]\nname = "palm"\nkind = "width"\n'
    'recipient_mm = {mm}\ndevice_mm = 70.0\nbody = "{body}"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
)


def _rules(make_job: MakeJob, mm: float) -> set[str]:
    """Return the rules that hold a job with one measure."""
    ready = prepare(make_job(MEASURE.format(mm=mm, body="hand-breadth"), a=cuboid(60, 40, 8)), TODAY)
    return {f.rule for f in check(ready.bound, ready.sizing.percent).findings if not f.verdict.passes}


def test_a_palm_in_cm_or_inches_is_held(make_job: MakeJob) -> None:
    """67 mm across a nine-year-old's palm typed as 6.7 or 2.64 is a hold; as it is, it is not."""
    assert "size.slip" not in _rules(make_job, 67.0)
    assert "size.slip" in _rules(make_job, 6.7)
    assert "size.slip" in _rules(make_job, 2.64)


@given(share=st.floats(0.3, 2.5))
def test_no_limb_is_judged(share: float) -> None:
    """From a third to two and a half times the median, whatever the size, nothing is said."""
    body = read_bodies()["hand-breadth"]
    measure = Measure(name="palm", kind="width", recipient_mm=67.0 * share, device_mm=70.0, body=body)

    assert slips(measure, Use(recipient_age_years=9)) == []


@pytest.mark.parametrize(("factor", "word"), [(0.1, "cm"), (1 / 25.4, "inches"), (25.4, "25.4")])
def test_the_slip_is_named(factor: float, word: str) -> None:
    """The sentence says which unit the number reads like, and the size that it would be."""
    measure = Measure(
        name="hand", kind="length", recipient_mm=185.0 * factor, device_mm=180.0, body=read_bodies()["hand-length"]
    )
    (finding,) = slips(measure, Use(recipient_age_years=30))

    assert word in finding.remedy
    assert "185 mm" in finding.remedy


def test_the_table_is_the_published_one() -> None:
    """Every child row equals the 5th and 95th percentile computed from Snyder et al. 1977 (UM-HSRI-77-17)."""
    with (DATA / "references" / "snyder1977_child_hand_by_age.csv").open() as file:
        rows = {int(r["age"]): r for r in csv.DictReader(line for line in file if line[0] != "#") if r["sex"] == "both"}
    for name, column in (("hand-breadth", "hand_breadth"), ("hand-length", "hand_length")):
        for age, low, high in read_bodies()[name].child_mm:
            assert (low, high) == (float(rows[age][f"{column}_p5"]), float(rows[age][f"{column}_p95"]))


def test_an_unknown_dimension_names_the_nearest(make_job: MakeJob) -> None:
    """A mistyped name is one sentence with the known one."""
    with pytest.raises(JobError, match="hand-breadth"):
        make_job(MEASURE.format(mm=67.0, body="hand-breath"), a=cuboid(60, 40, 8))
