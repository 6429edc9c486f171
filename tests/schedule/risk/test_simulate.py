"""A schedule played many times: without chance it is the plan, with it what formulas say, and always the same."""

from __future__ import annotations

import math

import pytest

from planner.schedule.calendar.schedule_records import PrintRun, Shop, Task
from planner.schedule.calendar.weekly_spans import HORIZON_MIN
from planner.schedule.risk.checkpoint import Marks
from planner.schedule.risk.simulate import Chance, Played, played

ALWAYS = Shop(change_min={"a": 10}, attended=((0, HORIZON_MIN),), unattended=True)
NEVER = Chance(per_hour=0.0, ratio=(1.0, 1.0, 1.0))


def _run(plate: int, start_min: int, long_min: int) -> PrintRun:
    """Return a run whose bed is cleared as it ends."""
    end_min = start_min + long_min
    return PrintRun(
        plate=plate, printer="a", start_min=start_min, end_min=end_min, clear_min=end_min, free_min=end_min + 10
    )


def _played(chance: Chance, *runs: PrintRun, shop: Shop = ALWAYS) -> Played:
    """Play some runs of one printer."""
    tasks = {run.key: Task(plate=run.plate, takes_min={"a": run.end_min - run.start_min}) for run in runs}
    return played(runs, tasks, shop, {"a": chance}, 1)[0]


def test_without_chance_every_play_is_the_plan() -> None:
    """No failure, no slower printer: the finish is that of the last run, and no plate outlasts its span."""
    found = _played(NEVER, _run(1, 0, 100), _run(2, 110, 200))

    assert (found.expected_min, found.p10_min, found.p90_min) == (310.0, 310.0, 310.0)
    assert set(found.overrun_percent.values()) == {0.0}


def test_failures_take_the_time_that_the_formula_says() -> None:
    """One plate of 10 h, a failure every 20 h, 10 minutes to clear: (1/rate + R)(e^(rate T) - 1) (Young 1974), within 3 %."""
    rate, takes_min, clear_min = 0.05 / 60.0, 600, 10.0
    found = _played(Chance(per_hour=0.05, ratio=(1.0, 1.0, 1.0)), _run(1, 0, takes_min))

    assert found.expected_min == pytest.approx((1 / rate + clear_min) * (math.exp(rate * takes_min) - 1), rel=0.03)


def test_a_slower_printer_moves_what_comes_after_and_outlasts_spans() -> None:
    """20 % slower: 100 minutes end at 120, outside the span that ends at 110; the next plate waits for the next span."""
    shop = Shop(change_min={"a": 10}, attended=((0, 110), (200, 500)), unattended=True)
    found = _played(Chance(per_hour=0.0, ratio=(1.2, 1.2, 1.2)), _run(1, 0, 100), _run(2, 200, 50), shop=shop)

    assert found.p50_min == 210 + 60  # the bed is cleared from 200 on
    assert found.overrun_percent[1] == 100.0


def test_the_same_seed_plays_the_same_games() -> None:
    """Twice the same input, twice the same finishes."""
    chance = Chance(per_hour=0.05, ratio=(0.9, 1.0, 1.3))

    assert _played(chance, _run(1, 0, 300)) == _played(chance, _run(1, 0, 300))


def test_a_printer_of_uneven_speed_spreads_the_finish_as_a_triangle_does() -> None:
    """0.5 to 1.5 of 1,000 minutes, 1.0 likeliest: a tenth of a triangle lies under 0.5 + sqrt(0.1 / 2) (closed form)."""
    found = _played(Chance(per_hour=0.0, ratio=(0.5, 1.0, 1.5)), _run(1, 0, 1000))

    assert found.p10_min == pytest.approx(500 + 1000 * math.sqrt(0.05), abs=50)
    assert found.p50_min == pytest.approx(1000, abs=40)
    assert found.p90_min == pytest.approx(1500 - 1000 * math.sqrt(0.05), abs=50)


def test_a_stop_after_which_it_goes_on_costs_the_time_to_resume() -> None:
    """A stop every 2 h in 10 h of printing, 10 minutes each, somebody always there: 600 + 5 x 10 minutes, within 1 %."""
    marks = Marks(share=1.0, mark_s=1.0, resume_s=600.0)
    found = _played(Chance(per_hour=0.5, ratio=(1.0, 1.0, 1.0), goes_on=marks), _run(1, 0, 600))

    assert found.expected_min == pytest.approx(650.0, rel=0.01)
