"""When a device is outgrown: what is known of each measure, and the size that follows."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from planner.job import Job, Measure, read_bodies
from planner.size import MeasureScale, Outgrown, outgrown
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = """
[job]
name = "x"
material = "petg"
[size]
percent = 100.0
[[size.measure]]
name = "girth"
kind = "around"
recipient_mm = 170.0
device_mm = 200.0
padding_mm = 3.0
ease_mm = 5.0
taken = 2026-11-01
body = "forearm-around"
[[part]]
name = "a"
mesh = "a.stl"
duty = "cover"
[use]
recipient_age_years = 8
"""


def answer(job: Job, spare_mm: float = 10.0, **measure: object) -> Outgrown:
    """Return what is said of the job's measure, changed in some way."""
    one: Measure = replace(job.size.measures[0], **measure)  # type: ignore[arg-type]
    changed = replace(job, size=replace(job.size, measures=(one,)))
    scale = MeasureScale(name="girth", percent=97.0, device_mm=200.0, spare_mm=spare_mm, governs=True)
    return outgrown(changed, [scale])[0]


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    return make_job(TEXT, a=cuboid(60, 40, 5))


def test_the_next_size_has_the_room_again(job: Job) -> None:
    """97 % of 200 mm hold the girth with padding and ease; 10 mm more, and 5 mm more than the ease, as it had: 104.5 %."""
    found = answer(job)

    assert found.known == "months"
    assert found.next_percent == pytest.approx(104.5)
    assert answer(job, ease_mm=10.0).next_percent == pytest.approx(102.0)
    assert found.day_after(0.0) == date(2026, 11, 1)


def test_what_is_missing_is_named(job: Job) -> None:
    """No age, no table of growth, a table of girths for a width, no room left; and a grown-up."""
    hand = read_bodies()["hand-length"]
    ageless, grown = (replace(job, use=replace(job.use, recipient_age_years=age)) for age in (None, 40.0))

    assert answer(ageless).known == "age"
    assert answer(grown).known == "grown"
    assert answer(job, body=None).known == "table"
    assert answer(job, kind="width").known == "table"
    assert answer(job, body=hand).known == "table"
    assert answer(job, spare_mm=-1.0).known == "small"


def test_a_limb_is_never_judged(job: Job) -> None:
    """The span depends on age and room alone: a limb far off the tables gets the same answer."""
    assert answer(job, recipient_mm=90.0) == answer(job, recipient_mm=400.0)
