"""A form's fields become the event that the command would tell."""

from __future__ import annotations

from datetime import datetime

import pytest

from planner.desk.events.chapter_events import TELLS, event_of_form
from planner.errors import FitwrightError
from planner.ledger.event import KINDS

AT = datetime(2026, 12, 1, 18, 0)


def test_fields_become_what_the_journal_holds() -> None:
    """80 min are 4800 s, a decimal comma is read, pieces are counted, what is empty is not told."""
    fields = {
        "subject": " R-07.3 ",
        "cause": "loose",
        "ran_min": "80",
        "lost": "jaw:2 cap",
        "grams": "4,5",
        "spool": "",
    }
    event = event_of_form("failed", fields, AT)

    assert (event.subject, event.kind, event.role, event.at) == ("R-07.3", "failed", "maker", AT)
    assert event.body == {"cause": "loose", "ran_s": 4800.0, "lost": {"jaw": 2, "cap": 1}, "used_g": 4.5}
    assert set(TELLS) <= set(KINDS)


@pytest.mark.parametrize("value", ["", "many", "nan", -1, True, [3]])
def test_what_is_no_amount_is_refused(value: object) -> None:
    """Grams left must be a number of 0 or more."""
    with pytest.raises(FitwrightError, match="left_g"):
        event_of_form("weighed", {"subject": "S-1", "left_g": value}, AT)
