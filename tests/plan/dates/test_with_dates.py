"""Plates are numbered by their starts; a stage with other plates has these, their batches and clocks, and nothing else."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from types import SimpleNamespace

from hypothesis import given
from hypothesis import strategies as st

from planner.plan import Plan
from planner.plan.dates.plate_dates import TimedPlates
from planner.plan.dates.with_dates import numbered_by_start, with_plates


def test_other_plates_bring_their_batches_and_clocks_and_all_else_stands(heron_plan: Plan) -> None:
    """One plate of three without a time: put back, the stage is what it was."""
    stage = heron_plan.stage
    fewer = with_plates(stage, TimedPlates(plates=stage.plates[:1], batches=stage.batches[:1], clocks=None))

    assert (fewer.plates, fewer.batches, fewer.clocks) == (stage.plates[:1], stage.batches[:1], None)
    back = replace(fewer, plates=stage.plates, batches=stage.batches, clocks=stage.clocks)
    assert back == stage


def test_plates_are_numbered_by_their_starts(heron_plan: Plan) -> None:
    """The first plate to print is plate 1, on cards and in file names too; a plate without a time would come last."""
    runs = sorted((run.start, run.plate) for run in heron_plan.runs if run.start is not None)

    assert [number for _, number in runs] == [plate.number for plate in heron_plan.plates]
    assert [plate.file.rpartition("-")[2] for plate in heron_plan.plates] == ["01.3mf", "02.3mf", "03.3mf"]


class _Made:
    """Stands for timed plates: each starts when its own clock says, whatever its number."""

    def __init__(self, starts: Sequence[datetime | None]) -> None:
        """Give the plates numbers as they come."""
        numbered = list(enumerate(starts, 1))
        self.plates = [SimpleNamespace(number=number, start=start) for number, start in numbered]
        runs = [SimpleNamespace(plate=number, start=start) for number, start in numbered]
        self.clocks = SimpleNamespace(table=SimpleNamespace(runs=runs))


@given(st.lists(st.one_of(st.none(), st.datetimes()), max_size=8))
def test_numbers_follow_starts_whatever_order_packing_left(starts: list[datetime | None]) -> None:
    """Sorted by start, those without one last; none is lost or doubled."""
    made = numbered_by_start(lambda order: _Made([starts[index] for index in order]), len(starts))  # type: ignore[arg-type, return-value]
    found = [plate.start for plate in made.plates]  # type: ignore[attr-defined]

    known = sorted(start for start in starts if start is not None)
    assert found == [*known, *[None] * (len(starts) - len(known))]
