"""What a chapter's history teaches, by printer, material and lot."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from sqlalchemy.engine import Engine

from planner.job import Printer, read_printer
from planner.ledger import History, learned, told
from tests.ledger.history.made_history import coupon, printer, prints
from tests.ledger.telling import DAY

NAMES = ("bench-1", "bench-2", "bench-3")


@pytest.fixture(name="printers")
def _printers() -> dict[str, Printer]:
    return dict.fromkeys(NAMES, read_printer("bench-220", Path()))


@pytest.fixture(name="history")
def _history(ledger: Engine, printers: dict[str, Printer]) -> History:
    """Return what is learned of two printers that were used and one that is new."""
    events = [
        *(printer(name) for name in NAMES),
        *prints("R-01", "bench-1", [1.1, 1.12, 1.08, 1.1, 1.11, 1.09], lot="L-1"),
        *prints("R-02", "bench-2", [1.2, 1.22, None, None, 1.18], lot="L-2"),
        *(coupon("bench-1", date(2026, month, 2), mm) for month, mm in ((2, 0.2), (3, 0.21))),
        coupon("bench-2", date(2026, 3, 2), 0.27),
    ]
    told(ledger, events, DAY)
    return learned(ledger, printers)


def _of(history: History, what: str, by: str, name: str) -> tuple[float, float, float, int]:
    """Return low end, value, high end and how many were told."""
    (row,) = [row for row in history.rows if (row.what, row.by, row.name) == (what, by, name)]
    return row.number.low, row.number.value, row.number.high, row.told_n


def test_each_printer_keeps_near_its_own_and_a_new_one_borrows(history: History) -> None:
    """1.10 of six and 1.20 of three; the new one lies between, with the widest interval."""
    ratios = {name: _of(history, "time_ratio", "printer", name) for name in NAMES}

    assert [ratios[name][3] for name in NAMES] == [6, 3, 0]
    assert ratios["bench-1"][1] == pytest.approx(1.10, abs=0.01)
    assert ratios["bench-2"][1] == pytest.approx(1.20, abs=0.01)
    assert ratios["bench-1"][1] < ratios["bench-3"][1] < ratios["bench-2"][1]
    wide = {name: ratios[name][2] - ratios[name][0] for name in NAMES}
    assert wide["bench-1"] < wide["bench-2"] < wide["bench-3"]


def test_failures_offsets_and_gaps_are_learned_too(history: History) -> None:
    """Two failures in 8 h are far more than the profile's 1 in 100 h; bores by coupon; gaps between fused and open."""
    low, value, high, told_n = _of(history, "failure_per_hour", "printer", "bench-2")
    assert low < value < high
    assert value > 2 * _of(history, "failure_per_hour", "printer", "bench-1")[1]
    assert told_n == 5

    first, second, new = (_of(history, "upright_mm", "printer", name)[1] for name in NAMES)
    assert 0.2 < first < new < second < 0.27
    assert 0.15 < _of(history, "least_gap_mm", "printer", "bench-1")[1] < 0.25
    assert _of(history, "mass_ratio", "lot", "L-2")[1] == pytest.approx(1.2, abs=0.02)
    assert {row.by for row in history.rows} == {"printer", "material", "lot"}


def test_nothing_is_invented(ledger: Engine, printers: dict[str, Printer]) -> None:
    """An empty ledger has no rows, and says what to tell it; nor has one whose prints nobody timed or weighed."""
    empty = learned(ledger, printers)
    assert (empty.rows, empty.drifts, len(empty.missing)) == ((), (), 4)

    told(ledger, [printer("bench-1"), *prints("R-01", "bench-1", [None])], DAY)
    some = learned(ledger, printers)
    assert {row.what for row in some.rows} == {"failure_per_hour"}
    assert any("--took" in line for line in some.missing)


def test_after_a_drift_only_what_came_since_counts(ledger: Engine, printers: dict[str, Printer]) -> None:
    """Five coupons at 0.20 mm, five at 0.30: the printer has 0.30 now, of five."""
    days = [date(2026, month, 1) for month in range(1, 11)]
    coupons = [coupon("bench-1", day, 0.2 if day.month < 6 else 0.3) for day in days]
    told(ledger, [printer("bench-1"), *coupons], DAY)
    history = learned(ledger, printers)

    assert _of(history, "upright_mm", "printer", "bench-1")[1] == pytest.approx(0.3, abs=0.01)
    assert _of(history, "upright_mm", "printer", "bench-1")[3] == 5
