"""A part that keeps a scale of its own is judged at that one, and a bore across an uneven scale becomes an oval."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.finding import Verdict
from planner.job import Job
from planner.rules.fit.bed_size import bed_over
from planner.rules.of_job.own_scale import across, at_own_scale
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate, cuboid

PART = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


def _of(job: Job, scale: object) -> Job:
    """Return a job whose part has a scale of its own."""
    return replace(job, parts=tuple(replace(part, scale_percent=scale) for part in job.parts))  # type: ignore[arg-type]


def test_across_a_bore_only_what_lies_across_counts() -> None:
    """An upright bore at 104, 98 and 130 %: 0.98 and 1.04, however much it is stretched along its axis (by hand)."""
    (bore,) = survey(bored_plate(40, 30, 8, [(20, 15, 5.0, 48)])).bores

    assert across(bore, (104.0, 98.0, 130.0)) == pytest.approx((0.98, 1.04))


@pytest.mark.parametrize(("scale", "verdict"), [(None, Verdict.GO), (100.0, Verdict.GO), (300.0, Verdict.NO_GO)])
def test_a_rule_is_asked_at_the_parts_own_scale(make_job: MakeJob, scale: float | None, verdict: Verdict) -> None:
    """A block of 100 mm on a bed of 210: at the device's 100 % it fits, at 300 % of its own it does not, whatever the device has."""
    solid = cuboid(100, 40, 8)
    job = _of(make_job(PART, a=solid), scale)
    its = survey(solid)
    rule = bed_over("a", its.hull_mm, (0.0, 0.0, -1.0), tuple(pose.down for pose in its.poses), job.printer.bed)
    (found,) = at_own_scale(job, rule, {"a": its})

    assert found.at(1.0).verdict is verdict
    assert scale is None or found.at(3.0).verdict is verdict
