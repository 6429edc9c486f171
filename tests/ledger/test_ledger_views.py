"""What a ledger answers."""

from __future__ import annotations

from datetime import date, datetime

import pytest
from sqlalchemy.engine import Engine

from planner.errors import LedgerError
from planner.ledger import recalled, shown, told
from tests.ledger.telling import DAY, chapter, tell


def test_a_lot_is_recalled_in_one_question(ledger: Engine) -> None:
    """By hand: lot L-9 went into one plate of a device that is handed over and into a failed one of another, and one that runs; L-1 into none."""
    other = tell("spool", "S-2", material="petg", colour="black", lot="L-1", left_g=9.0, printer="bench-2")
    told(ledger, [*chapter("R-07"), *chapter("R-08")[1:], other], DAY)
    told(
        ledger,
        [
            tell("done", "R-07.1"),
            tell("failed", "R-08.2", cause="loose", ran_s=3600.0),
            tell("handed", "R-07", even_so=True),
        ],
        DAY,
    )

    rows = [(row["job"], row["device"], row["plate"], row["outcome"], row["good"]) for row in recalled(ledger, "L-9")]
    assert rows == [("R-07", "handed", "R-07.1", "done", {"jaw": 2}), ("R-08", "open", "R-08.2", "failed", {})]
    assert recalled(ledger, "L-1") == []
    told(ledger, [tell("started", "R-08.1", spool="S-1")], DAY)
    runs = recalled(ledger, "L-9")[-1]
    assert (runs["plate"], runs["outcome"], runs["good"], runs["spool"]) == ("R-08.1", "running", {}, "S-1")
    with pytest.raises(LedgerError, match="L-9"):
        recalled(ledger, "L-99")


def test_each_view_tells_what_was_told(ledger: Engine) -> None:
    """By hand: two of three pieces printed, a printer of one failure in two prints and three hours, follow-ups, stock."""
    told(ledger, chapter(), DAY)
    told(ledger, [tell("printer", "bench-1", profile="bench-220", attended=[], calibrated_until="2026-12-31")], DAY)
    told(ledger, [tell("done", "R-07.1"), tell("failed", "R-07.2", cause="loose", ran_s=3600.0)], DAY)
    told(
        ledger,
        [tell("bought", "screw M3", n=20.0), tell("handed", "R-07", at=datetime(2026, 11, 30, 12), even_so=True)],
        DAY,
    )
    today = date(2026, 12, 8)
    (one,) = shown(ledger, "recipients", today)
    (printer,) = shown(ledger, "printers", today)

    assert (one["pieces"], one["printed"], one["state"], one["measured"]) == (3, 2, "handed", "2026-10-02")
    assert (printer["prints"], printer["failed"], printer["hours"], printer["used_g"]) == (2, 1, 3.0, 50.0)
    assert printer["coupon_valid"]
    assert not shown(ledger, "printers", date(2027, 1, 1))[0]["coupon_valid"]
    assert [(row["due"], row["overdue"]) for row in shown(ledger, "due", today)] == [
        ("2026-12-07", True),
        ("2026-12-30", False),
        ("2027-02-28", False),
        ("2027-05-30", False),
    ]
    assert shown(ledger, "stock", today) == [{"name": "screw M3", "n": 20.0}]
    with pytest.raises(LedgerError, match="recipients"):
        shown(ledger, "recipient", today)
