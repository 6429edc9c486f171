"""A photo's range on the desk: where the verdict is not one over it, the photo is to be taken again."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from planner.desk.photos.photo_verdict import across_range
from planner.errors import CommandError
from planner.job import Job, read_job
from planner.photo import Length
from planner.plan import Prepared, prepare
from tests.desk.test_work_folder import JOB
from tests.shapes import cuboid, written

DAY = date(2026, 12, 1)
MEASURED = """
[[size.measure]]
name = "forearm"
kind = "width"
recipient_mm = 80.0
device_mm = 80.0
"""


def _none(_: Job) -> Prepared:
    raise AssertionError("nothing is prepared for what is refused")


def _length(value_mm: float, half_mm: float) -> Length:
    return Length(
        value_mm=value_mm,
        low_mm=value_mm - half_mm,
        high_mm=value_mm + half_mm,
        tilt_deg=5.0,
        away_mm=1000.0,
        parts_mm={},
    )


@pytest.fixture(name="job")
def _job(tmp_path: Path) -> Job:
    """Return a box of 100 mm on a bed of 220 mm, whose size one width governs."""
    written(cuboid(100, 10, 8), tmp_path / "parts" / "box.stl")
    (tmp_path / "job.toml").write_text(JOB + MEASURED, encoding="utf-8")
    return read_job(tmp_path / "job.toml")


def test_a_range_that_stays_on_one_side_decides_nothing(job: Job) -> None:
    """80 ± 2 mm asks for 97.5 to 102.5 %: a box of some 100 mm lies on the bed all over it."""
    found = across_range(job, 0, _length(80.0, 2.0), DAY, lambda one: prepare(one, DAY))

    assert found.percents == pytest.approx((97.5, 100.0, 102.5))
    assert not found.decides
    assert "take it again" not in found.words()


def test_a_range_across_the_bed_s_edge_is_taken_again(job: Job) -> None:
    """A box of 100 mm lies across a bed of 220 mm, 311 mm from corner to corner, at 250 %, and not at 350 %."""
    found = across_range(job, 0, _length(240.0, 40.0), DAY, lambda one: prepare(one, DAY))

    assert found.percents == pytest.approx((250.0, 300.0, 350.0))
    assert found.verdicts[0].passes
    assert not found.verdicts[2].passes
    assert found.decides
    assert found.words().startswith("± 40.0 mm, take it again")


def test_what_no_photo_shows_is_refused(job: Job) -> None:
    """A length round a limb wants a tape; a row that is gone is told."""
    around = replace(job.size.measures[0], kind="around")
    with pytest.raises(CommandError, match="tape"):
        across_range(replace(job, size=replace(job.size, measures=(around,))), 0, _length(80.0, 2.0), DAY, _none)
    with pytest.raises(CommandError, match="the job has none"):
        across_range(job, 3, _length(80.0, 2.0), DAY, _none)
