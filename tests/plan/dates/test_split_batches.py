"""Plates parted: every copy on one plate, where it lay; nothing is parted that the job wants whole."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Literal

import pytest

from planner.packing import PackedPlate
from planner.plan import Plan
from planner.plan.dates.split_batches import batches_again, longest_s, packed_of, parted
from planner.plan.plates.plate_inputs import PlateInputs

Wish = Literal["never", "when-needed", "when-it-pays"]


def _inputs(plan: Plan, split: Wish) -> PlateInputs:
    """Return the plan's inputs under another wish to part plates."""
    assert plan.job.calendar is not None
    return PlateInputs.of(plan).under(replace(plan.job.calendar, split=split))


def _pads(plan: Plan) -> PackedPlate:
    """Return the plate of two pads as it was packed."""
    return packed_of(plan.plates[0])


def test_a_plate_may_run_as_long_as_somebody_is_there_at_a_stretch(heron_plan: Plan) -> None:
    """At weekends from 9 to 22: thirteen hours; without a calendar, or a start, without end."""
    job = heron_plan.job
    assert job.calendar is not None

    assert longest_s(job) == 13 * 3600.0
    assert longest_s(replace(job, calendar=None)) == math.inf
    assert longest_s(replace(job, calendar=replace(job.calendar, start=None))) == math.inf


def test_a_plate_that_is_too_long_is_parted_and_its_copies_keep_their_places(heron_plan: Plan) -> None:
    """Two pads a second over the limit: one a plate, where they lay, half the fill each, a batch for each."""
    plate = _pads(heron_plan)
    most_s = heron_plan.plates[0].duration_s.value - 1.0
    plates, batches = parted(_inputs(heron_plan, "when-needed"), (plate,), most_s)

    assert {p.placements for p in plates} == {(place,) for place in plate.placements}
    assert len(plates) == 2
    assert [p.fill for p in plates] == pytest.approx([plate.fill / 2] * 2)
    assert [batch.whole.duration_s < most_s for batch in batches] == [True, True]


@pytest.mark.parametrize(("split", "over_s"), [("never", 1.0), ("when-needed", -1.0)])
def test_a_plate_stays_whole_where_nobody_wants_or_needs_it_parted(
    heron_plan: Plan, split: Wish, over_s: float
) -> None:
    """Too long but never to be parted; or a second within the limit."""
    plate = _pads(heron_plan)
    most_s = heron_plan.plates[0].duration_s.value - over_s
    plates, batches = parted(_inputs(heron_plan, split), (plate,), most_s)

    assert plates == (plate,)
    assert len(batches) == 1


def test_only_plates_that_went_to_another_printer_are_weighed_again(heron_plan: Plan) -> None:
    """None moved: the same batches, not equal ones."""
    batches = heron_plan.batches
    found = batches_again(PlateInputs.of(heron_plan), heron_plan.plates, heron_plan.plates, batches)

    assert all(one is other for one, other in zip(found, batches, strict=True))
