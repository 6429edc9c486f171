"""Months to come, played from a ledger's own history."""

from __future__ import annotations

import math
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import brentq
from sqlalchemy.engine import Engine

from planner.job import Printer, read_printer
from planner.ledger import Event, MonthsAhead, learned, months_ahead, told
from tests.ledger.history.made_history import START, printer
from tests.ledger.telling import DAY, plate, tell

DAYS, DEVICES_N, PLATE_H = 300, 60, 60.0
NOW = START + timedelta(days=DAYS)


def _device(code: str, came: datetime, printed: datetime | None, handed: datetime | None) -> list[Event]:
    """Return a device of one plate, as it came in, was printed and was handed over."""
    hours = [[list(range(7)), 0, 1440]]
    row = {**plate(f"{code}.1", jaw=1), "duration_s": PLATE_H * 3600.0}
    events = [tell("job", code, came, hours=hours, unattended=True), tell("plates", code, came, plates=[row])]
    events += [tell("done", f"{code}.1", printed)] if printed else []
    return [*events, *([tell("tested", code, handed, passed=True), tell("handed", code, handed)] if handed else [])]


def _ahead(ledger: Engine, now: datetime, months_n: int = 6) -> MonthsAhead:
    """Return the months to come of a ledger with one printer."""
    profiles: dict[str, Printer] = {"bench-1": read_printer("bench-220", Path())}
    return months_ahead(ledger, learned(ledger, profiles), profiles, now, months_n)


def _in_line_days(load: float, share: float) -> float:
    """Return which wait in line that share of devices does not exceed: M/D/1 by Crommelin (1932), for a load."""
    takes, per_day = PLATE_H / 24.0, load / (PLATE_H / 24.0)

    def below(wait: float) -> float:
        steps = [per_day * (j * takes - wait) for j in range(int(wait / takes) + 1)]
        return (1.0 - load) * sum(x**j / math.factorial(j) * math.exp(-x) for j, x in enumerate(steps))

    return float(brentq(lambda wait: below(wait) - share, 0.0, 60.0))


def test_a_year_of_equal_devices_waits_as_the_closed_form_says(ledger: Engine) -> None:
    """One every 5 days, 60 h each, day and night, handed over at once: the load is 0.5, the months have six each.

    Half are printed at once, and by Crommelin 90 of 100 wait no longer in line than 3.8 days; rate and failures are
    known by sixty devices, hence the tolerance of a sixth.
    """
    came = [
        START + timedelta(days=float(day)) for day in np.sort(np.random.default_rng(51).uniform(1, DAYS, DEVICES_N))
    ]
    events = [printer("bench-1")]
    for n, at in enumerate(came, 1):
        events += _device(f"R-{n}", at, at, at)
    told(ledger, events, NOW)
    ahead = _ahead(ledger, NOW)
    assert ahead.brings is not None
    low, middle, high = ahead.brings.waits_days

    assert (ahead.arrived_n, ahead.seen_days, ahead.handed_n) == (DEVICES_N, DAYS, DEVICES_N)
    assert low == pytest.approx(PLATE_H / 24.0, abs=0.05)
    assert middle == pytest.approx(PLATE_H / 24.0, rel=1 / 6)
    assert high == pytest.approx(PLATE_H / 24.0 + _in_line_days(0.5, 0.9), rel=1 / 6)
    assert _in_line_days(0.5, 0.9) == pytest.approx(3.8, abs=0.05)
    full = ahead.brings.devices_n[1:]
    assert [median for _, median, _ in full] == pytest.approx([6.0] * 6, abs=1.0)
    assert all(p10 < p50 < p90 for p10, p50, p90 in full)


def test_what_waits_goes_first_and_a_running_plate_keeps_its_printer(ledger: Engine) -> None:
    """Ten devices that are open now, 60 h each: eleven or so are handed over in the month, the first after the one that runs."""
    events = [printer("bench-1"), *_device("R-0", START, None, None)]
    for n in range(1, 7):
        at = START + timedelta(days=40 * n)
        events += _device(f"R-{n}", at, at, at)
    for n in range(11, 21):
        events += _device(f"R-{n}", NOW - timedelta(days=1), None, None)
    told(ledger, [*events, tell("started", "R-0.1", NOW, printer="bench-1")], NOW)
    ahead = _ahead(ledger, NOW, 1)
    assert ahead.brings is not None

    assert ahead.arrived_n == 16
    assert sum(middle for _, middle, _ in ahead.brings.devices_n) == pytest.approx(12.0, abs=3.0)


def test_a_thin_history_is_no_forecast(ledger: Engine) -> None:
    """An empty ledger, and a week of one device: what is missing is told, and no figure."""
    assert _ahead(ledger, NOW).missing == ("the ledger has no job yet: plan the chapter with it",)
    told(ledger, _device("R-1", DAY, DAY, None), DAY)
    ahead = _ahead(ledger, DAY + timedelta(days=7))

    assert ahead.brings is None
    assert len(ahead.missing) == 5
    assert "28 are needed" in ahead.missing[0]


def test_printers_without_hours_or_blocked_print_nothing(ledger: Engine) -> None:
    """The job tells no hours, and the printer has none of its own; then it has, but waits for its coupon."""
    told(ledger, [printer("bench-1"), tell("job", "R-1")], DAY)
    assert any("no printer has hours" in text for text in _ahead(ledger, NOW).missing)

    own = tell("printer", "bench-1", profile="bench-220", attended=["Mon-Sun 08:00-20:00"], calibrated_until=None)
    told(ledger, [own], DAY)
    assert not any("no printer has hours" in text for text in _ahead(ledger, NOW).missing)
    told(ledger, [tell("blocked", "bench-1", why="new hot end")], DAY)
    assert any("no printer has hours" in text for text in _ahead(ledger, NOW).missing)
