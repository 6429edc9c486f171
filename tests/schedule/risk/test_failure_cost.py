"""Hazard: the restart formula of Young and Daly, closed forms, and a simulation that knows neither."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.schedule import Hazard, expected_s, risk_of

HAZARD = Hazard(per_hour=0.05, change_s=1200.0, heat_up_s=600.0)


def _simulated(hours: float, grams: float, hazard: Hazard, n: int) -> tuple[float, float, float]:
    """Return mean seconds, grams lost and failures of many plates, attempt by attempt."""
    rng = np.random.default_rng(7)
    duration, clock, lost, failed = hours * 3600.0, np.zeros(n), np.zeros(n), np.zeros(n)
    open_ = np.arange(n)
    while len(open_):
        until = rng.exponential(3600.0 / hazard.per_hour, len(open_))
        bad = until < duration
        clock[open_] += np.where(bad, until + hazard.change_s, duration)
        laid = np.clip(until - hazard.heat_up_s, 0.0, None) / (duration - hazard.heat_up_s) * grams
        lost[open_] += np.where(bad, laid, 0.0)
        failed[open_] += bad
        open_ = open_[bad]
    return float(clock.mean()), float(lost.mean()), float(failed.mean())


@pytest.mark.parametrize(("hours", "rate"), [(5.0, 0.03), (20.0, 0.03), (8.0, 0.01), (12.0, 0.1)])
def test_the_restart_formula_is_what_a_simulation_finds(hours: float, rate: float) -> None:
    """(e^(rate T) - 1)/rate, Young (1974) and Daly (2006), within 1 % of 400,000 simulated runs; so are the grams."""
    free = Hazard(per_hour=rate, change_s=0.0, heat_up_s=0.0)
    seconds, lost, failures = _simulated(hours, 100.0, free, 400_000)
    found = risk_of(hours * 3600.0, 100.0, free)

    assert expected_s(hours * 3600.0, rate) == pytest.approx(math.expm1(rate * hours) / rate * 3600.0)
    assert found.expected_s == pytest.approx(seconds, rel=0.01)
    assert found.lost_g == pytest.approx(lost, rel=0.02)
    assert found.failures_n == pytest.approx(failures, rel=0.02)


def test_clearing_and_heat_up_are_paid_for_each_failure() -> None:
    """A restart that costs 20 min, and a heat-up that lays nothing, agree with the same simulation within 1 %."""
    seconds, lost, _ = _simulated(10.0, 250.0, HAZARD, 400_000)
    found = risk_of(36_000.0, 250.0, HAZARD)

    assert found.expected_s == pytest.approx(seconds, rel=0.01)
    assert found.lost_g == pytest.approx(lost, rel=0.01)
    assert found.failure_percent == pytest.approx(100 * (1 - math.exp(-0.5)))


def test_a_printer_that_never_fails_takes_its_time_and_one_that_always_does_never_ends() -> None:
    """At rate 0 nothing is lost; a run of 1,000 mean times to failure is told as endless, not as a number."""
    sound = risk_of(3600.0, 50.0, Hazard(per_hour=0.0, change_s=900.0, heat_up_s=300.0))
    endless = risk_of(1000 * 3600.0, 50.0, Hazard(per_hour=1.0, change_s=900.0, heat_up_s=300.0))

    assert (sound.expected_s, sound.lost_g, sound.failure_percent) == (3600.0, 0.0, 0.0)
    assert math.isinf(endless.expected_s)
    assert risk_of(3600.0, None, HAZARD).lost_g is None
