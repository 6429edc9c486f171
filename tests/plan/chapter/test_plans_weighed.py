"""How late jobs are beside each other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from planner.plan import Plan
from planner.plan.chapter.plans_weighed import Weighing
from planner.plan.dates.timed_plan import JobPlates
from planner.plan.plates.plate_inputs import PlateInputs


def test_the_same_plates_are_asked_once_and_fewer_plates_count_less(plans: Mapping[str, Plan]) -> None:
    """Three jobs in time: no plate without a time, no day late, and as many plates as they have; asked again, no other answer."""
    jobs = {name: JobPlates(inputs=PlateInputs.of(plan), plates=plan.plates) for name, plan in plans.items()}
    weighing = Weighing(jobs)
    plates_n = sum(len(plan.plates) for plan in plans.values())

    assert weighing.late(jobs) == weighing.late(jobs) == (0, 0, plates_n)
    assert {name: len(mine) for name, mine in weighing.known.items()} == dict.fromkeys(jobs, 1)
    fewer = {**jobs, "a": replace(jobs["a"], plates=())}
    assert weighing.late(fewer) == (0, 0, plates_n - len(plans["a"].plates))
