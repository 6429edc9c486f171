"""What events change in the tables of today."""

from __future__ import annotations

from sqlalchemy.engine import Engine

from planner.ledger import shown, told
from planner.ledger.apply_event import CHANGES
from planner.ledger.event import KINDS
from tests.ledger.telling import DAY, chapter, plate, tell


def test_every_kind_of_event_changes_something() -> None:
    """No event is known that nothing is done about, and none is done about that is not known."""
    assert set(CHANGES) == set(KINDS)


def test_a_plan_that_is_made_again_withdraws_what_it_no_longer_asks_for(ledger: Engine) -> None:
    """By hand: plate 1 is done, plate 2 is replaced by plate 3: done, withdrawn and planned."""
    told(ledger, [*chapter(), tell("done", "R-07.1")], DAY)
    told(ledger, [tell("plates", "R-07", plates=[plate("R-07.3", cap=1)])], DAY)

    states = {row["id"]: row["state"] for row in shown(ledger, "plates", DAY.date())}
    assert states == {"R-07.1": "done", "R-07.2": "withdrawn", "R-07.3": "planned"}


def test_a_weighed_spool_has_what_the_scale_says(ledger: Engine) -> None:
    """Weighed, it has those grams; never less than none after a print; a new one is registered when first weighed."""
    told(ledger, [*chapter(), tell("weighed", "S-1", left_g=30.0), tell("done", "R-07.1", even_so=True)], DAY)
    told(ledger, [tell("weighed", "S-2", left_g=1000.0, material="petg", colour="black", lot="L-2")], DAY)

    rows = {row["id"]: (row["left_g"], row["colour"], row["opened"]) for row in shown(ledger, "spools", DAY.date())}
    assert rows == {"S-1": (0.0, "green", DAY.isoformat()), "S-2": (1000.0, "black", None)}


def test_a_fitted_device_is_told_so(ledger: Engine) -> None:
    """Open, then fitted, and a job that is planned again stays so."""
    told(ledger, [*chapter(), tell("fitted", "R-07", even_so=True), chapter()[1]], DAY)

    assert [row["state"] for row in shown(ledger, "recipients", DAY.date())] == ["fitted"]
