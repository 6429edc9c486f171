"""Lost pieces after a failed plate: into gaps of plates to come, else on as few plates as can be; each proved."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import date

import pytest

from planner.packing import Plate, verify_plate
from planner.plan import Failure, Plan, after_failure, make_plan, prepare
from planner.sourced import stated
from tests.conftest import MakeJob
from tests.shapes import cuboid

TODAY = date(2026, 11, 26)
TEXT = '[job]\nname = "x"\nmaterial = "petg"\n'
PART = '[[part]]\nname = "{0}"\nmesh = "{0}.stl"\nduty = "{1}"\npose = [0, 0, -1]\ncount = {2}\n'


def hold(plan: Plan) -> None:
    """Prove every plate again."""
    rings = {p.part.name: p.outline_mm for p in plan.parts}
    for plate in plan.plates:
        found = verify_plate(plate.placements, rings, bed=plan.job.printer.bed, spacing_mm=4.0)
        assert found == (), found


def copies(plates: tuple[Plate, ...]) -> Counter[tuple[str, int]]:
    """Count the copies on plates."""
    return Counter((p.part, p.copy) for plate in plates for p in plate.placements)


@pytest.fixture(name="plan")
def _plan(make_job: MakeJob) -> Plan:
    """Return two plates: four large blocks fill the first; the second has a fifth one and room."""
    text = TEXT + PART.format("block", "load", 5) + "[plan]\nstart = 2026-12-01T08:00:00\n"
    return make_plan(prepare(make_job(text, block=cuboid(100, 100, 6)), TODAY))


def late(plan: Plan, number: int) -> float:
    """Return a moment near the end of a plate, at which finishing it is the shorter way."""
    return 0.95 * next(plate.duration_s.value for plate in plan.plates if plate.number == number)


def test_a_lost_piece_goes_into_the_gap_of_a_plate_to_come(make_job: MakeJob) -> None:
    """A chip of the first plate is lost: it lies beside the block of the second, which keeps its place."""
    text = TEXT + PART.format("block", "load", 5) + PART.format("chip", "load", 2)
    text += "[plan]\nstart = 2026-12-01T08:00:00\n"
    plan = make_plan(prepare(make_job(text, block=cuboid(96, 96, 6), chip=cuboid(6, 60, 6)), TODAY))
    first = next(plate for plate in plan.plates if any(p.part == "chip" for p in plate.placements))
    (second,) = [plate for plate in plan.plates if plate.number != first.number]
    after = after_failure(plan, Failure(plate=1, at_s=late(plan, 1), cause="scarred", lost={"chip": 1}))
    (left,) = after.left.plates

    assert first.number == 1
    assert after.mishap.does == "finish"
    assert set(second.placements) <= set(left.placements)
    assert len(left.placements) == len(second.placements) + 1
    assert left.number == second.number
    assert left.duration_s.value > second.duration_s.value
    hold(after.left)


def test_where_no_gap_is_wide_enough_all_that_is_left_is_packed_anew_if_that_saves_a_plate(plan: Plan) -> None:
    """The fifth block lies in the middle of its plate: with the lost one it is laid out again, on one plate."""
    assert [len(plate.placements) for plate in plan.plates] == [4, 1]
    after = after_failure(plan, Failure(plate=1, at_s=late(plan, 1), cause="scarred", lost={"block": 1}))
    (left,) = after.left.plates

    assert after.mishap.does == "finish"
    assert {p.copy for p in left.placements} > {p.copy for p in plan.plates[1].placements}
    assert len(left.placements) == 2
    hold(after.left)


def test_more_than_the_gaps_hold_is_packed_on_as_few_plates_as_can_be(plan: Plan) -> None:
    """Stopping loses all four: five blocks need two plates, the whole one as it was and the fifth; copies once each."""
    after = after_failure(plan, Failure(plate=1, at_s=600.0, cause="shifted", lost={}))

    assert after.mishap.does == "stop"
    assert len(after.left.plates) == 2
    assert copies(after.left.plates) == copies(plan.plates)
    hold(after.left)


def test_lost_pieces_of_a_last_plate_are_packed_anew(plan: Plan) -> None:
    """Nothing follows the second plate: its block lies in the middle of a plate of its own."""
    after = after_failure(plan, Failure(plate=2, at_s=600.0, cause="shifted", lost={}))

    assert after.done == (1,)
    assert after.left.plates == (plan.plates[1],)


def test_no_gap_is_filled_beyond_what_the_calendar_allows(make_job: MakeJob) -> None:
    """Where the fuller plate is longer than any attended window, the lost piece gets a plate of its own."""
    text = TEXT + PART.format("block", "load", 5) + '[plan]\nstart = 2026-12-01T08:00:00\nsplit = "never"\n'
    plan = make_plan(prepare(make_job(text, block=cuboid(100, 100, 6)), TODAY))
    one_h = next(p.duration_s.value for p in plan.plates if len(p.placements) == 1) / 3600.0
    ends = int(8 * 60 + 60 * one_h * 1.3)
    assert one_h < 12
    window = f'attended = ["Mon-Sun 08:00-{ends // 60:02d}:{ends % 60:02d}"]\n'
    short = make_plan(prepare(make_job(text + window, block=cuboid(100, 100, 6)), TODAY))
    # the plate of four, which has no time and so the last number, is printed first all the same
    swapped = tuple(replace(plate, number=3 - plate.number) for plate in reversed(short.plates))
    full = swapped[0]
    failure = Failure(plate=1, at_s=0.95 * full.duration_s.value, cause="scarred", lost={"block": 1})
    after = after_failure(replace(short, stage=replace(short.stage, plates=swapped, clocks=None)), failure)

    assert len(full.placements) == 4
    assert sorted(len(plate.placements) for plate in after.left.plates) == [1, 1]
    hold(after.left)


def test_of_copies_in_turn_the_finished_ones_stay_whole(make_job: MakeJob) -> None:
    """Three pieces one after another; the second fails: it and the third are printed again, one is scrap."""
    text = TEXT + PART.format("a", "load", 3) + '[plan]\norder = "one-after-another"\nstart = 2026-12-01T08:00:00\n'
    job = make_job(text, a=cuboid(40, 30, 10))
    printer = replace(job.printer, head_clear_mm=stated(30.0), under_gantry_mm=stated(40.0))
    plan = make_plan(prepare(replace(job, printer=printer), TODAY))
    (plate,) = plan.plates
    after = after_failure(plan, Failure(plate=1, at_s=plate.duration_s.value / 2, cause="shifted", lost={}))

    assert plate.in_turn
    assert after.mishap.does == "stop"
    assert dict(after.again) == {"a": 2}
    assert dict(after.whole) == {"a": 1}
    assert after.logged.lost == (("a", 1),)
    assert [p.copy for p in after.left.plates[0].placements] == [p.copy for p in plate.placements[1:]]
    hold(after.left)
