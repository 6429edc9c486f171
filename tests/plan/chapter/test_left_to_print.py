"""What is left of a plan when some of it is printed."""

from __future__ import annotations

from collections import Counter
from datetime import date

from planner.packing import counted
from planner.plan import Plan, left_to_print
from tests.conftest import MakeJob
from tests.plan.chapter.plates_and_posts import plan_of


def _pieces(plan: Plan) -> Counter[str]:
    """Return the pieces on all plates."""
    return sum((Counter(counted(plate.placements)) for plate in plan.plates), Counter())


def test_every_piece_is_either_printed_or_planned(make_job: MakeJob) -> None:
    """What is printed and what is planned make the device, whatever was printed; more than asked for takes nothing else away."""
    plan = plan_of(make_job, deadline=date(2026, 12, 20), coupon="never")
    whole = _pieces(plan)
    for printed in ({}, {"block": 1}, {"block": 2, "plate": 1}, {"block": 3, "plate": 1}, {"block": 9}):
        left = left_to_print(plan, printed, [])
        behind = sum((Counter(counted(plate.placements)) for plate in left.stage.printed.plates), Counter[str]())

        assert _pieces(left) == whole - Counter(printed)
        assert behind + _pieces(left) == whole
        assert {plate.number for plate in left.plates} == {run.plate for run in left.runs}

    over = left_to_print(plan, dict(whole), [counted(plate.placements) for plate in plan.plates])
    assert over.plates == ()
    assert "nothing is left" in over.totals.withheld
