"""A plate that runs: it keeps its printer and its spool until it is over."""

from __future__ import annotations

from datetime import timedelta

import pytest
from sqlalchemy.engine import Engine

from planner.errors import LedgerError
from planner.ledger import Event, shown, told, under_way
from tests.ledger.telling import DAY, chapter, plate, tell


def test_a_plate_that_runs_ends_as_long_after_its_start_as_it_takes(ledger: Engine) -> None:
    """By hand: two hours from 18:00 on; a plan that leaves it out does not withdraw it."""
    told(ledger, [*chapter(), tell("started", "R-07.1", printer="bench-1")], DAY)
    told(ledger, [tell("plates", "R-07", plates=[plate("R-07.2", cap=1)])], DAY)
    (runs,) = under_way(ledger)

    assert (runs["id"], runs["printer"], runs["start"], runs["end"]) == (
        "R-07.1",
        "bench-1",
        DAY,
        DAY + timedelta(hours=2),
    )
    assert [(row["part"], row["n"]) for row in runs["pieces"]] == [("jaw", 2)]


def test_a_failure_without_a_time_has_run_since_its_start(ledger: Engine) -> None:
    """By hand: half an hour of two takes 10 of 40 g off the spool that was named at the start."""
    later = DAY + timedelta(minutes=30)
    spools = [tell("spool", "S-2", material="petg", colour="green", lot="", left_g=100.0, printer="")]
    told(ledger, [*chapter(), *spools, tell("started", "R-07.1", printer="bench-1", spool="S-2")], DAY)
    told(ledger, [tell("failed", "R-07.1", at=later, cause="loose")], later)

    assert {row["id"]: row["left_g"] for row in shown(ledger, "spools", DAY.date())} == {"S-1": 500.0, "S-2": 90.0}


@pytest.mark.parametrize(
    ("event", "says"),
    [
        (tell("started", "R-07.2"), "still runs R-07.1"),
        (tell("started", "R-07.2", printer="bench-9"), "no such printer"),
        (tell("started", "R-07.1"), "this plate is running"),
        (tell("failed", "R-07.2", cause="loose"), "--at"),
        (tell("done", "R-07.1", at=DAY - timedelta(hours=1)), "after that"),
    ],
)
def test_a_printer_runs_one_plate_at_a_time(ledger: Engine, event: Event, says: str) -> None:
    """Another on the same printer, an unknown printer, one twice, or over before it began: refused."""
    told(ledger, [*chapter(), tell("started", "R-07.1")], DAY)
    with pytest.raises(LedgerError, match=says):
        told(ledger, [event], DAY)


def test_a_plate_that_was_withdrawn_and_printed_counts(ledger: Engine) -> None:
    """Its card hung at the printer: what came off the bed is there, whatever a later plan says."""
    told(ledger, [*chapter(), tell("plates", "R-07", plates=[plate("R-07.3", jaw=2, cap=1)])], DAY)
    told(ledger, [tell("done", "R-07.1")], DAY)

    (row,) = shown(ledger, "recipients", DAY.date())
    assert row["printed"] == 2


def test_a_plate_that_was_withdrawn_is_started_only_where_somebody_says_so(ledger: Engine) -> None:
    """An old card is on the bed: refused, and told which plate has its pieces now; with --even-so it runs."""
    told(ledger, chapter(), DAY)
    told(ledger, [tell("plates", "R-07", plates=[plate("R-07.3", jaw=2), plate("R-07.4", cap=1)])], DAY)
    with pytest.raises(LedgerError, match=r"withdrew it; its pieces are on R-07\.3 now"):
        told(ledger, [tell("started", "R-07.1")], DAY)
    told(ledger, [tell("plates", "R-07", plates=[plate("R-07.4", cap=1)])], DAY)
    with pytest.raises(LedgerError, match="a later plan withdrew it;"):
        told(ledger, [tell("started", "R-07.1")], DAY)
    told(ledger, [tell("started", "R-07.1", even_so=True)], DAY)

    assert [row["id"] for row in under_way(ledger)] == ["R-07.1"]
