"""What plates are made from: taken off a plan, with its own estimates, and under another calendar."""

from __future__ import annotations

from dataclasses import replace

from planner.plan import Plan
from planner.plan.plates.plate_inputs import PlateInputs


def test_inputs_of_a_plan_are_its_parts_in_its_material_as_estimated(heron_plan: Plan) -> None:
    """The estimates of the job's own printer are the parts' own, not made again."""
    inputs = PlateInputs.of(heron_plan)
    own = inputs.estimates.on(heron_plan.job.printer.name)

    assert (inputs.job, inputs.material) == (heron_plan.job, heron_plan.material)
    assert inputs.works_n == heron_plan.stage.sized.works_n
    assert all(own[part.part.name] is part.estimate for part in inputs.parts)


def test_another_calendar_changes_nothing_else(heron_plan: Plan) -> None:
    """Only the job's calendar; the job it came from keeps its own."""
    inputs = PlateInputs.of(heron_plan)
    bare = inputs.under(None)

    assert bare.job == replace(heron_plan.job, calendar=None)
    assert replace(bare, job=inputs.job) == inputs
    assert inputs.job.calendar is not None
