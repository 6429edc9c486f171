"""Devices that wait for printers, against queues whose waiting times are known in closed form."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.schedule.risk.coming_months import DAY_MIN, Bench, Past, coming_months, printed_min

ALWAYS = ((0, 10**9),)


def _waits(takes: np.ndarray, per_min: float, fails_per_min: float = 0.0) -> np.ndarray:
    """Return how long devices of one plate wait for one printer, from coming in to being printed."""
    rng = np.random.default_rng(41)
    arrives = np.cumsum(rng.exponential(1.0 / per_min, len(takes)))
    devices = [(float(at), (float(minutes),)) for at, minutes in zip(arrives, takes, strict=True)]
    return printed_min(devices, [Bench(spans=ALWAYS)], [fails_per_min], rng) - arrives


def test_one_printer_and_random_plates_wait_as_m_m_1() -> None:
    """Mean 60 min, one every 120: the whole wait is exponential of mean 1/(1/60 - 1/120) = 120 min (any textbook).

    Its 10th, 50th and 90th percentile are 120 times -ln 0.9, -ln 0.5 and -ln 0.1.
    """
    waits = _waits(np.random.default_rng(42).exponential(60.0, 20000), 1 / 120)

    assert waits.mean() == pytest.approx(120.0, rel=0.04)
    expected = [-120.0 * math.log(share) for share in (0.9, 0.5, 0.1)]
    assert np.quantile(waits, [0.1, 0.5, 0.9]) == pytest.approx(expected, rel=0.05)


def test_one_printer_and_equal_plates_wait_as_m_d_1() -> None:
    """60 min each, one every 80: the load is 0.75, and by Pollaczek and Khinchine 0.75 x 60 / (2 x 0.25) = 90 in line."""
    waits = _waits(np.full(20000, 60.0), 1 / 80)

    assert waits.mean() - 60.0 == pytest.approx(90.0, rel=0.06)


def test_plates_that_fail_and_start_anew_wait_as_m_g_1() -> None:
    """60 min, a failure every 120 min of printing, one device every 240 min: Pollaczek and Khinchine with E[S^2].

    A plate takes its 60 min and N failed attempts, N geometric of success e^(-1/2), each a truncated exponential.
    """
    takes, fails, per_min = 60.0, 1 / 120, 1 / 240
    p = math.exp(-fails * takes)
    mean_f = 1 / fails - takes * p / (1 - p)
    second_f = (2 / fails**2 * (1 - p) - p * (takes**2 + 2 * takes / fails)) / (1 - p)
    mean_n, var_n = (1 - p) / p, (1 - p) / p**2
    mean_s = takes + mean_n * mean_f
    var_s = mean_n * (second_f - mean_f**2) + var_n * mean_f**2
    assert mean_s == pytest.approx((math.exp(fails * takes) - 1) / fails)  # the mean in closed form
    expected = per_min * (var_s + mean_s**2) / (2 * (1 - per_min * mean_s))
    waits = _waits(np.full(20000, takes), per_min, fails)

    assert waits.mean() - mean_s == pytest.approx(expected, rel=0.08)


def test_plates_start_while_somebody_is_there() -> None:
    """Eight to ten each day, five hours a plate: it runs on alone, and the next starts on the next day; or never fits."""
    day = tuple((n * DAY_MIN + 480, n * DAY_MIN + 600) for n in range(9))
    devices = [(0.0, (300.0, 300.0))]
    rng = np.random.default_rng(1)
    alone = printed_min(devices, [Bench(spans=day, change_min=15.0)], [0.0], rng)
    watched = printed_min(devices, [Bench(spans=day, unattended=False)], [0.0], rng)
    two = printed_min(devices, [Bench(spans=day), Bench(spans=day, free_min=500.0)], [0.0, 0.0], rng)

    assert alone.tolist() == [DAY_MIN + 480 + 15 + 300]
    assert watched.tolist() == [math.inf]
    assert two.tolist() == [800.0]


def test_months_count_what_comes_in() -> None:
    """30 devices in 300 days, an hour each, printers idle: three a month, one day of hands, none left but the last ones."""
    past = Past(
        benches=(Bench(spans=ALWAYS),),
        devices=((60.0,),),
        backlog=((60.0,), (60.0,)),
        lags_min=(DAY_MIN - 60.0,),
        arrived_n=30,
        seen_days=300.0,
    )
    months = coming_months(past, [30.0 * DAY_MIN, 60.0 * DAY_MIN])

    assert [middle for _, middle, _ in months.devices_n] == [5.0, 3.0]  # the two that wait go first
    assert months.devices_n[1][0] < 3.0 < months.devices_n[1][2]
    assert months.waits_days[1] == pytest.approx(1.0, abs=0.01)
    assert months.open_n[1] == 0.0
    assert coming_months(past, [30.0 * DAY_MIN]) == coming_months(past, [30.0 * DAY_MIN])
