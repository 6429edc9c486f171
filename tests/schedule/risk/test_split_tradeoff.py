"""Split or together: the curve from one plate to many, against Young's formula worked out beside it."""

from __future__ import annotations

import math

import pytest

from planner.job import Weights
from planner.schedule.risk.failure_cost import Hazard, Risk
from planner.schedule.risk.failure_ratio import FamilyRatio
from planner.schedule.risk.split_search import Counts
from planner.schedule.risk.split_tradeoff import Batch, batch_of

WEIGHTS = Weights(per_hour=1.0, per_lost_g=0.0, per_change=0.0)
RATE = 0.03


def _hazard(per_hour: float = RATE, change_s: float = 0.0) -> Hazard:
    """Return a printer without heat-up."""
    return Hazard(per_hour=per_hour, change_s=change_s, heat_up_s=0.0)


def _five_hours(plate: Counts) -> tuple[float, float | None]:
    """Return 5 h and 10 g a piece."""
    return 5 * 3600.0 * sum(plate), 10.0 * sum(plate)


def _batch(hazard: Hazard, longest_s: float = math.inf) -> Batch:
    """Weigh four pieces of 5 h."""
    return batch_of(["a"], (4,), _five_hours, hazard, longest_s=longest_s, weights=WEIGHTS)


def test_free_changes_split_as_far_as_can_be() -> None:
    """Young 1974: (e^(0.03 20) - 1) / 0.03 h together, 4 (e^(0.03 5) - 1) / 0.03 apart; the split saves what is between."""
    batch = _batch(_hazard())
    together_h, apart_h = math.expm1(0.6) / RATE, 4 * math.expm1(0.15) / RATE

    assert batch.pays
    assert batch.best is not None
    assert batch.best.plates == ((1,),) * 4
    assert batch.best.expected_s / 3600 == pytest.approx(apart_h)
    assert batch.saved_s / 3600 == pytest.approx(together_h - apart_h)
    assert [point.plates_n for point in batch.curve] == [1, 2, 3, 4]


def test_changes_are_paid_between_plates_only() -> None:
    """By hand: two plates of a printer that never fails take 20 h and one change of 1 h; the whole plate is cheaper."""
    batch = _batch(_hazard(per_hour=0.0, change_s=3600.0))
    second = batch.curve[1]

    assert batch.best is batch.together
    assert not batch.pays
    assert batch.saved_s == 0.0
    assert (second.changes_n, second.expected_s / 3600, second.cost) == pytest.approx((1, 21.0, 21.0))


def test_a_whole_plate_that_may_not_run_is_split_whatever_that_costs() -> None:
    """With 12 h at most two pieces go together; with 4 h nothing may run, and there is no best."""
    batch, none = _batch(_hazard(per_hour=0.0, change_s=3600.0), 12 * 3600.0), _batch(_hazard(), 4 * 3600.0)

    assert batch.together is None
    assert batch.best is not None
    assert (batch.best.plates, batch.pays, batch.saved_s) == (((2,), (2,)), True, 0.0)
    assert (none.best, none.curve, none.pays) == (None, (), False)


def test_unknown_grams_stay_unknown() -> None:
    """Where a plate's grams are withheld, no lost grams are told."""
    batch = batch_of(["a"], (2,), lambda plate: (3600.0 * sum(plate), None), _hazard(), weights=WEIGHTS)

    assert [point.lost_g for point in batch.curve] == [None, None]


def test_a_family_that_fails_twice_as_often_is_counted_so_once() -> None:
    """Its ratio doubles the rate of every plate weighed, and is told; a risk given whole is taken as it is."""
    ratio = FamilyRatio(ratio=2.0, low=2.0, high=2.0, why="tall pieces")
    doubled = batch_of(["a"], (4,), _five_hours, _hazard(), weights=WEIGHTS, ratio_by=lambda _: ratio)
    given = Risk(duration_s=60.0, failure_percent=0.0, failures_n=0.0, expected_s=60.0, lost_g=0.0)
    whole = batch_of(
        ["a"], (4,), _five_hours, _hazard(), weights=WEIGHTS, ratio_by=lambda _: ratio, risk_by=lambda _: given
    )

    assert doubled.whole.expected_s / 3600 == pytest.approx(math.expm1(1.2) / (2 * RATE))
    assert (doubled.per_hour, doubled.why) == (2 * RATE, "tall pieces")
    assert whole.whole is given
    assert _batch(_hazard()).per_hour == RATE
