"""An end of a range over scale: exact where it meets a need, and never free at a size at which a stop is known."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.mechanism.judging.move_range import MoveEnd, MoveRange
from planner.mechanism.judging.range_ends import end_over, over_knots


def _ends_at(goes_at: float):  # type: ignore[no-untyped-def]
    """Return an end of 8 degrees that a screw's head makes in devices smaller than a size, and none makes beyond."""
    return lambda s: 8.0 if s < goes_at else None


@pytest.mark.parametrize("goes_at", [0.5, 1.07, 1.3, 2.4])
def test_a_stop_that_goes_away_with_size_stays_one_below(goes_at: float) -> None:
    """Hardware that keeps its size stops a small device alone: where it still does, 10 degrees are not reached.

    Once a stop that was missing at one size counted as missing at all of them.
    """
    high = MoveEnd(curve=end_over(_ends_at(goes_at), 1, lambda _: 10.0), meets="head meets deck", reach_mm=9.0)
    low = MoveEnd(curve=None, meets="", reach_mm=0.0)
    rule = MoveRange(
        part="jaw",
        feature="deck to jaw",
        low=low,
        high=high,
        needs=(0.0, 10.0),
        near=None,
        clear_mm=0.1,
        unplaced=(),
        unit="°",
    )
    for s in (0.4, 0.45, goes_at - 1e-6):
        assert rule.at(s).verdict is Verdict.NO_GO, s
    assert rule.at(goes_at + 0.02).verdict is Verdict.GO
    assert high.at(goes_at + 0.02) is None
    turn = rule.turns()[-1]
    assert goes_at - 1e-6 <= turn <= goes_at + 0.02


def test_the_size_at_which_a_need_is_met_is_found_from_nearer_by() -> None:
    """An end of 40 s / (1 + s) degrees reaches 22 at s = 22 / 18."""
    curve = end_over(lambda s: 40.0 * s / (1.0 + s), 1, lambda _: 22.0)
    assert curve is not None
    assert curve.crossings(22.0) == pytest.approx((22.0 / 18.0,), abs=1e-5)


def test_nothing_that_ever_stops_it_is_no_end() -> None:
    """No curve, for either side."""
    assert end_over(lambda _: None, 0, None) is None
    assert end_over(lambda _: None, 1, lambda _: 5.0) is None


def test_a_number_that_is_not_known_at_every_knot_is_not_known() -> None:
    """Travel that cannot be told at one size is told at none."""
    assert over_knots(lambda s: None if s < 0.5 else s) is None
    assert over_knots(lambda s: 2.0 * s).at(1.1) == pytest.approx(2.2)  # type: ignore[union-attr]
