"""Times for plates: none without a calendar or a start, and on one printer the plates stay where they are."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from planner.plan import Plan
from planner.plan.dates.plate_dates import TimedPlates, job_with_times
from planner.plan.plates.plate_inputs import PlateInputs


def test_without_a_calendar_or_a_start_plates_stay_as_they_are(heron_plan: Plan) -> None:
    """The same plates and batches, no clocks."""
    inputs, calendar = PlateInputs.of(heron_plan), heron_plan.job.calendar
    assert calendar is not None
    for bare in (None, replace(calendar, start=None)):
        found = job_with_times(inputs.under(bare), heron_plan.plates, heron_plan.batches)

        assert found == TimedPlates(plates=heron_plan.plates, batches=heron_plan.batches, clocks=None)


def test_a_start_a_week_later_moves_the_dates_by_a_week_and_no_plate(heron_plan: Plan) -> None:
    """Evenings come again every week: each run begins seven days later, on the same bed, by the same batch."""
    calendar = heron_plan.job.calendar
    assert calendar is not None
    assert calendar.start is not None
    later = replace(calendar, start=calendar.start + timedelta(days=7))
    one = heron_plan.plates[2:], heron_plan.batches[2:]
    found = [job_with_times(PlateInputs.of(heron_plan).under(each), *one) for each in (calendar, later)]
    starts = [made.clocks.table.runs[0].start for made in found if made.clocks is not None]

    assert starts[0] is not None
    assert starts[1] == starts[0] + timedelta(days=7)
    assert all((made.plates, made.batches) == one for made in found)
