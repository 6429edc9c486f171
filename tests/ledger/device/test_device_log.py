"""What happens to a device after its pieces are printed: each line is kept, and what follows from it is done."""

from __future__ import annotations

from datetime import timedelta

import pytest
from sqlalchemy.engine import Engine

from planner.errors import LedgerError
from planner.ledger import as_planned, forgotten, printed, shown, told
from planner.ledger.journal import rebuilt
from tests.ledger.telling import DAY, chapter, printed_and_tested, tell

AS_DRAWN = {"jaw": "as drawn", "cap": "as drawn"}


def _state(ledger: Engine) -> str:
    """Return the state of the one recipient's device."""
    return str(shown(ledger, "recipients", DAY.date())[0]["state"])


def test_a_spoilt_piece_is_missing_and_the_device_is_put_together_again(ledger: Engine) -> None:
    """One of two jaws of a device that was handed over breaks: one is left, the device is open; the journal says the same."""
    told(ledger, [*chapter(), *printed_and_tested(), tell("handed", "R-07")], DAY)
    told(ledger, [tell("spoilt", "R-07", text="cracked", lost={"jaw": 1})], DAY)
    with ledger.begin() as db:
        rebuilt(db)

    assert printed(ledger, "R-07", AS_DRAWN)[0] == {"jaw": 1, "cap": 1}
    assert _state(ledger) == "open"
    assert shown(ledger, "recipients", DAY.date())[0]["printed"] == 2


def test_a_piece_that_was_spoilt_at_another_size_takes_nothing_from_those_of_today(ledger: Engine) -> None:
    """A jaw breaks, then the device is planned larger and printed again: none of the new ones is missing."""
    spool, job, plates = chapter()
    larger = tell("job", "R-07", **{**job.body, "made": {"jaw": "larger", "cap": "as drawn"}})
    known = tell("job", "R-07", **{**job.body, "made": AS_DRAWN})
    told(ledger, [spool, known, plates, *printed_and_tested()], DAY)
    told(ledger, [tell("spoilt", "R-07", lost={"jaw": 1}), larger], DAY)
    again = {**plates.body["plates"][0], "id": "R-07.3"}
    again["pieces"] = [{**again["pieces"][0], "made_as": "larger"}]
    told(ledger, [tell("plates", "R-07", plates=[again]), tell("done", "R-07.3")], DAY)

    assert printed(ledger, "R-07", {**AS_DRAWN, "jaw": "larger"})[0] == {"jaw": 2, "cap": 1}
    assert printed(ledger, "R-07", AS_DRAWN)[0] == {"jaw": 1, "cap": 1}


def test_who_was_asked_is_no_longer_due(ledger: Engine) -> None:
    """After a week one of four questions is answered; after 95 days the two that are over by then."""
    told(ledger, [*chapter(), *printed_and_tested(), tell("handed", "R-07")], DAY)
    left = []
    for days in (7, 95):
        told(ledger, [tell("asked", "R-07", at=DAY + timedelta(days=days), text="works daily")], DAY)
        left.append(len(shown(ledger, "due", DAY.date())))
    assert left == [3, 1]


def test_a_device_that_is_ended_is_planned_no_more(ledger: Engine) -> None:
    """Its plates are withdrawn, nobody asks, and its log stays to be read."""
    told(ledger, [*chapter(), tell("complained", "R-07", text="too heavy"), tell("ended", "R-07")], DAY)

    assert as_planned(ledger, "R-07") == []
    assert shown(ledger, "due", DAY.date()) == []
    assert _state(ledger) == "ended"
    assert [row["what"] for row in shown(ledger, "devices", DAY.date())] == ["complained", "ended"]


def test_what_was_told_about_a_device_is_redacted_with_its_recipient(ledger: Engine) -> None:
    """The text of a complaint is gone, from the journal too."""
    told(ledger, [*chapter(), tell("complained", "R-07", text="rubs the left wrist")], DAY)
    forgotten(ledger, tell("forget", "R-07"), DAY)
    with ledger.begin() as db:
        assert "wrist" not in str(list(db.exec_driver_sql("SELECT body FROM event")))
    assert shown(ledger, "devices", DAY.date()) == []


@pytest.mark.parametrize(
    ("lost", "says"), [({}, "nobody said which pieces"), ({"jaw": 3}, "the device has 2"), ({"knob": 1}, "has 0")]
)
def test_only_pieces_of_the_device_can_be_spoilt(ledger: Engine, lost: dict[str, int], says: str) -> None:
    """None named, more than there are, a part that it does not have: nothing is taken."""
    told(ledger, chapter(), DAY)
    with pytest.raises(LedgerError, match=says):
        told(ledger, [tell("spoilt", "R-07", lost=lost)], DAY)
