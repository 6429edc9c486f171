"""Pieces one after another: formulas against a simulation of their failures, and against the plate printed at once."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.schedule.risk.failure_cost import Hazard, risk_of
from planner.schedule.risk.risk_one_by_one import left_after, risk_in_turn

HAZARD = Hazard(per_hour=0.1, change_s=600.0, heat_up_s=300.0)
PIECES_S, PIECES_G = (7500.0, 7200.0, 3600.0), (20.0, 20.0, 10.0)


def test_the_formula_equals_a_simulation() -> None:
    """20,000 plates with exponential failures take the expected time and lose the expected grams within 2 %."""
    rng, rate = np.random.default_rng(5), HAZARD.per_hour / 3600.0
    total_s, lost_g, n = 0.0, 0.0, 20_000
    for _ in range(n):
        for number, (piece, gram) in enumerate(zip(PIECES_S, PIECES_G, strict=True)):
            cold = 0.0 if number else HAZARD.heat_up_s
            run = piece
            while (failed := rng.exponential(1.0 / rate)) < run:
                laid = max(0.0, failed - cold) / (run - cold) * gram
                total_s, lost_g = total_s + failed + HAZARD.change_s, lost_g + laid
                cold = HAZARD.heat_up_s
                run = piece if number == 0 else piece + HAZARD.heat_up_s
            total_s += run
    risk = risk_in_turn(PIECES_S, PIECES_G, HAZARD)

    assert risk.expected_s == pytest.approx(total_s / n, rel=0.02)
    assert risk.lost_g == pytest.approx(lost_g / n, rel=0.05)


def test_a_failure_loses_a_piece_and_not_the_plate() -> None:
    """The chance to fail is that of the whole run; the time that failures cost is less than of a plate at once."""
    in_turn, at_once = risk_in_turn(PIECES_S, PIECES_G, HAZARD), risk_of(sum(PIECES_S), sum(PIECES_G), HAZARD)

    assert in_turn.failure_percent == pytest.approx(100 * (1 - math.exp(-0.1 * sum(PIECES_S) / 3600)))
    assert in_turn.lost_s < 0.7 * at_once.lost_s
    assert in_turn.lost_g is not None
    assert at_once.lost_g is not None
    assert in_turn.lost_g < 0.7 * at_once.lost_g


def test_without_failures_nothing_is_lost_and_grams_may_be_unknown() -> None:
    """At a rate of 0 the pieces take their own time; without grams none are told."""
    never = Hazard(per_hour=0.0, change_s=600.0, heat_up_s=300.0)

    assert risk_in_turn(PIECES_S, PIECES_G, never).lost_s == 0.0
    assert risk_in_turn(PIECES_S, None, HAZARD).lost_g is None
    assert risk_in_turn((), None, HAZARD).duration_s == 0.0


def test_what_is_left_after_a_failure_is_every_piece_that_was_not_done() -> None:
    """Heated at 10 %, pieces end at 40 and 100 %: failing at 39 % all is left, at 41 % the second piece and the heat."""
    assert left_after((0.1, 0.4, 1.0), 0.39) == pytest.approx(1.0)
    assert left_after((0.1, 0.4, 1.0), 0.41) == pytest.approx(0.7)
