"""What each measured coupon tells."""

from __future__ import annotations

from datetime import date

import pytest
from sqlalchemy.engine import Engine

from planner.ledger import told
from planner.ledger.history.told_coupons import told_coupons
from tests.ledger.history.made_history import coupon, printer
from tests.ledger.telling import DAY, chapter


def test_a_coupon_tells_its_mean_offset_and_its_gap(ledger: Engine) -> None:
    """By hand: five bores 0.20 mm small, give or take a hundredth: variance 1e-4/5, and 0.02^2/3 of the calipers."""
    told(ledger, [*chapter(), printer("bench-1"), coupon("bench-1", date(2026, 5, 2), 0.2, spool="S-1")], DAY)
    (one,) = told_coupons(ledger)

    assert (one.printer, one.material, one.nozzle_mm, one.lot, one.taken) == (
        *("bench-1", "petg", 0.4),
        *("L-9", date(2026, 5, 2)),
    )
    assert one.tells["upright_mm"] == pytest.approx((0.2, 1e-4 / 5 + 0.02**2 / 3))
    assert one.tells["least_gap_mm"] == pytest.approx((0.175, 0.05**2 / 12))
    assert "lying_mm" not in one.tells
