"""Drifts in a sentence."""

from __future__ import annotations

from datetime import date, datetime

import pytest
from sqlalchemy.engine import Engine

from planner.ledger import told
from planner.ledger.history.drifts import drifts_of
from planner.ledger.history.told_coupons import told_coupons
from planner.ledger.history.told_prints import told_prints
from tests.ledger.history.made_history import coupon, printer, prints
from tests.ledger.telling import DAY


def test_a_printer_that_prints_smaller_is_told_since_when_and_by_how_much(ledger: Engine) -> None:
    """Coupons each month: 0.20 until April, 0.26 from May on; its sound twin is not named."""
    months = {month: (0.20 if month < 5 else 0.26) for month in range(1, 10)}
    events = [coupon("bench-2", date(2026, month, 3), mm + 0.004 * (-1) ** month) for month, mm in months.items()]
    events += [coupon("bench-1", date(2026, month, 4), 0.21 + 0.004 * (-1) ** month) for month in months]
    told(ledger, [printer("bench-1"), printer("bench-2"), *events], DAY)
    (drift,) = drifts_of(told_prints(ledger), told_coupons(ledger))

    assert (drift.printer, drift.material, drift.what, drift.since) == (
        *("bench-2", "petg"),
        *("upright_mm", date(2026, 5, 3)),
    )
    assert drift.text.startswith("bench-2 prints upright bores 0.06 mm smaller since May 2026 (petg: 0.26 mm over 5, ")


def test_hours_and_failures_drift_too(ledger: Engine) -> None:
    """Twelve plates at 1.0, then eight at 1.2 from February on; one failure in sixty plates, then ten in twenty."""
    slower = prints("R-01", "bench-1", [1.0, 1.01, 0.99] * 4 + [1.2, 1.21] * 4)
    fails = prints("R-02", "bench-2", [None, *[1.0] * 59], begin=datetime(2026, 1, 1), days=0.5)
    fails += prints("R-03", "bench-2", [1.0, None] * 10, begin=datetime(2026, 2, 1), days=1.0)
    told(ledger, [printer("bench-1"), printer("bench-2"), *slower, *fails], DAY)
    first, second = drifts_of(told_prints(ledger), told_coupons(ledger))[0], drifts_of(told_prints(ledger), ())[-1]

    assert (first.what, first.since) == ("time_ratio", date(2026, 1, 31))
    assert first.change[1] == pytest.approx(1.2, abs=0.02)
    assert "bench-1 takes 1.21 times as long since January 2026" in first.text
    assert (second.printer, second.what, second.since) == ("bench-2", "failure_per_hour", date(2026, 2, 1))
    assert "10 failures, 1 before" in second.text
