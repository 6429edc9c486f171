"""A stage with other plates: these, their batches and their clocks, and nothing else."""

from __future__ import annotations

from dataclasses import replace

from planner.plan import Plan
from planner.plan.dates.plate_dates import TimedPlates
from planner.plan.dates.with_dates import with_plates


def test_other_plates_bring_their_batches_and_clocks_and_all_else_stands(heron_plan: Plan) -> None:
    """One plate of three without a time: put back, the stage is what it was."""
    stage = heron_plan.stage
    fewer = with_plates(stage, TimedPlates(plates=stage.plates[:1], batches=stage.batches[:1], clocks=None))

    assert (fewer.plates, fewer.batches, fewer.clocks) == (stage.plates[:1], stage.batches[:1], None)
    back = replace(fewer, plates=stage.plates, batches=stage.batches, clocks=stage.clocks)
    assert back == stage
