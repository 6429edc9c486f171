"""Work by hand after the last plate: each step its time by hand, in order, and what the job states instead."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from planner.job import read_hands_on
from planner.plan import Plan
from planner.plan.dates.hands_work import FIT, hand_steps
from planner.plan.plates.plate_inputs import PlateInputs
from planner.schedule import Step, Wall

START = datetime(2026, 12, 1, 8, 0)


def _steps(plan: Plan, *, works_n: int = 0, **job: Any) -> tuple[Step, ...]:
    """Return the steps of a job with nothing in its bag but what is named."""
    bare = {"hardware": (), "cords": (), "straps": (), "paddings": (), **job}
    inputs = replace(PlateInputs.of(plan), works_n=works_n, parts=(), job=replace(plan.job, **bare))
    return hand_steps(inputs, Wall(start=START))


def test_times_are_those_of_one_piece_times_their_number(heron_plan: Plan) -> None:
    """Cords and four openings: by the shipped minutes, each after the one before, the cords again after they settled."""
    times, cords = read_hands_on(), heron_plan.job.cords[:1]
    n = cords[0].count
    steps = _steps(heron_plan, works_n=4, cords=cords)

    assert [(step.name, step.takes_min) for step in steps] == [
        ("drill and ream", 4 * times.drill_min.value),
        ("thread and tension cords", n * times.cord_min.value),
        ("tension cords again", n * times.retension_min.value),
        ("test the function", times.test_min.value),
    ]
    assert [step.after for step in steps] == [(), *((step.name,) for step in steps[:-1])]
    assert [step.wait_min for step in steps] == [0, 0, times.settle_min.value, 0]
    assert [step.role for step in steps] == ["maker", "maker", "maker", "tester"]


def test_nothing_to_do_leaves_the_test_alone(heron_plan: Plan) -> None:
    """No step of no minutes stands in the calendar."""
    assert [step.name for step in _steps(heron_plan)] == ["test the function"]


def test_minutes_that_the_job_states_stand_for_all_that_they_cover(heron_plan: Plan) -> None:
    """``finish_min`` takes the place of support and drilling, ``assemble_min`` of hardware, pads, straps and cords."""
    told = replace(heron_plan.job.hands, finish_min=45.0, assemble_min=90.0, test_min=7.0)
    steps = _steps(heron_plan, works_n=4, hardware=heron_plan.job.hardware, hands=told)

    assert [(step.name, step.takes_min, step.why) for step in steps] == [
        ("finish", 45, "[hands] finish_min"),
        ("assemble", 90, "[hands] assemble_min"),
        ("test the function", 7, "[hands] test_min"),
    ]


def test_a_fitting_begins_at_its_hour_and_by_a_fitter(heron_plan: Plan) -> None:
    """Two days and three hours after the start: not before that minute; before the start it is minute 0."""
    calendar = heron_plan.job.calendar
    assert calendar is not None
    at = START + timedelta(days=2, hours=3)
    fits = [_steps(heron_plan, calendar=replace(calendar, fitting=when))[-1] for when in (at, START - timedelta(1))]

    assert [(step.name, step.role, step.not_before_min) for step in fits] == [
        (FIT, "fitter", 51 * 60),
        (FIT, "fitter", 0),
    ]
