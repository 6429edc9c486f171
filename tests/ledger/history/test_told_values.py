"""Amounts and words that cannot be are refused, and nothing is taken."""

from __future__ import annotations

from datetime import datetime

import pytest
from sqlalchemy.engine import Engine

from planner.errors import LedgerError
from planner.ledger import Event, shown, told
from tests.ledger.telling import DAY, chapter, tell


@pytest.mark.parametrize(
    ("event", "says"),
    [
        (tell("weighed", "S-1", left_g=1e300), "G: 1e\\+300 cannot be"),
        (tell("weighed", "S-1", left_g=-1.0), "G: -1 cannot be"),
        (tell("weighed", "S-1", left_g=1e-9), "write 0, or a number from 0.001 to 100000"),
        (tell("bought", "M3 nut", n=1e9), "N: 1e\\+09 cannot be"),
        (tell("done", "R-07.1", used_g=2e5), "--grams: 200000 cannot be"),
        (tell("done", "R-07.1", fed=[{"spool": "S-1", "used_g": float("nan")}]), "--spool: nan is no amount"),
        (tell("failed", "R-07.1", cause="loose", ran_s=1e12), "no print runs for so long"),
        (tell("bought", " ", n=1.0), "it is about nothing"),
        (tell("weighed", "S-9", left_g=500.0, material="petg", colour=" "), "a text is blank"),
        (tell("weighed", "S-9", left_g=500.0, material="petg", colour="\x1b[31m"), "holds U\\+001B"),
        (tell("note", "R-07", text="\u202eread backwards"), "holds U\\+202E"),
        (tell("bought", "\udc80", n=1.0), "holds U\\+DC80"),
        (tell("fitted", "R-07", datetime(1, 1, 1)), "the year 1 cannot be"),
        (tell("fitted", "R-07", datetime(9999, 12, 31)), "the year 9999 cannot be"),
        (tell("note", "R-07"), "its text is empty"),
        (tell("failed", "R-07.1", cause=""), "its cause is empty"),
        (tell("blocked", "bench-1"), "its why is empty"),
        (tell("note", "R-07", text="x" * 2001), "2001 letters is too long"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_taken(ledger: Engine, event: Event, says: str) -> None:
    """Grams that no spool holds would feed every plate; a sign that no paper shows stops the paper."""
    told(ledger, chapter(), DAY)
    before = shown(ledger, "spools", DAY.date()), shown(ledger, "stock", DAY.date())
    with pytest.raises(LedgerError, match=says):
        told(ledger, [event], DAY)

    assert (shown(ledger, "spools", DAY.date()), shown(ledger, "stock", DAY.date())) == before


def test_words_of_other_scripts_and_several_lines_are_taken(ledger: Engine) -> None:
    """Persian and Hindi words are joined by signs without a picture (Unicode 15, 23.2)."""
    told(ledger, chapter(), DAY)
    told(ledger, [tell("note", "R-07", text="می\u200cخواهم\nक्\u200dष"), tell("weighed", "S-1", left_g=0.0)], DAY)

    assert shown(ledger, "spools", DAY.date())[0]["left_g"] == 0.0
