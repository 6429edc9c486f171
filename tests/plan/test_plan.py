"""The whole job, stage by stage."""

from __future__ import annotations

from collections import Counter
from datetime import date

import pytest

from planner.plan import judged, make_plan, prepare
from tests.conftest import MakeJob
from tests.plan.jobs import job_text
from tests.shapes import cuboid


def test_a_plan_is_judged_from_its_stages_and_tells_how_far_it_is(make_job: MakeJob) -> None:
    """Three blocks: all on one plate, begun at the first moment that the job names; judged again, the stage says the same.

    What is told of the way goes from nought to one and never back.
    """
    told: list[float] = []
    job = make_job(job_text(("block", 3, "cover")), block=cuboid(40, 30, 6))
    plan = make_plan(prepare(job, date(2026, 11, 26)), lambda _, share: told.append(share))
    (plate,) = plan.plates
    (run,) = plan.runs
    again = judged(plan.stage)

    assert Counter(placed.part for placed in plate.placements) == {"block": 3}
    assert job.calendar is not None
    assert run.start == job.calendar.start
    assert (again.verdict, [f.why for f in again.findings]) == (plan.verdict, [f.why for f in plan.findings])
    assert told == sorted(told)
    assert told[-1] == pytest.approx(1.0, abs=0.3)
