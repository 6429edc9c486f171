"""What is refused before it is taken, and what follows from what is told."""

from __future__ import annotations

from math import inf, nan
from typing import Any

import pytest
from sqlalchemy.engine import Engine

from planner.errors import LedgerError
from planner.ledger import Event, printed, shown, told
from tests.ledger.telling import DAY, chapter, plate, printed_and_tested, tell


@pytest.mark.parametrize(
    ("event", "says"),
    [
        (tell("done", "R-07.9"), "no such plate"),
        (tell("done", "plate 3"), "R-07.3"),
        (tell("failed", "R-07.1", cause="loose", lost={"jaw": 3}), "3 of jaw cannot be lost"),
        (tell("failed", "R-07.1", cause="loose", lost={"cap": 1}), "1 of cap cannot be lost"),
        (tell("done", "R-07.1", spool="S-2"), "no such spool"),
        (tell("weighed", "S-2", left_g=1.0), "--material"),
        (tell("handed", "R-08"), "no such job"),
        (tell("job", "Anna"), "no code"),
        (tell("note", "R-07", text="Anna Miller rang"), "looks like a name"),
        (
            tell("job", "R-07", overrides=[{"rule": "x", "part": "", "role": "lead", "reason": "Anna Miller rang"}]),
            "reason",
        ),
        (tell("note", "R-07", text="call 0170 1234567"), "looks like"),
        (tell("printed", "R-07.1"), "no event is called so"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(ledger: Engine, event: Event, says: str) -> None:
    """An unknown plate, spool or job, too many pieces, or what looks like a name: nothing is taken."""
    told(ledger, chapter(), DAY)
    with pytest.raises(LedgerError, match=says):
        told(ledger, [event], DAY)


@pytest.mark.parametrize(
    ("body", "good", "left_g"),
    [
        ({}, {}, 480.0),  # an hour of two: half of 40 g, and no piece is whole
        ({"lost": {"jaw": 1}}, {"jaw": 1}, 460.0),  # it went on to its end: all 40 g, one jaw is whole
        ({"used_g": 33.0}, {}, 467.0),
    ],
)
def test_a_failed_plate_keeps_its_whole_pieces_and_its_grams_are_gone(
    ledger: Engine, body: dict[str, Any], good: dict[str, int], left_g: float
) -> None:
    """By hand: a plate of two hours, 40 g and two jaws fails after one hour."""
    told(ledger, [*chapter(), tell("failed", "R-07.1", ran_s=3600.0, cause="loose", **body)], DAY)

    assert printed(ledger, "R-07", {"jaw": "as drawn"}) == (good, {})
    assert printed(ledger, "R-07", {"jaw": "larger"}) == ({}, good)
    assert [row["left_g"] for row in shown(ledger, "spools", DAY.date())] == [left_g]


def test_a_plate_is_over_once(ledger: Engine) -> None:
    """Done twice, or planned again under its old id: refused; what is printed again gets a new one."""
    told(ledger, [*chapter(), tell("done", "R-07.1")], DAY)
    for event in (tell("done", "R-07.1"), tell("plates", "R-07", plates=[plate("R-07.1", jaw=2)])):
        with pytest.raises(LedgerError, match="this plate is"):
            told(ledger, [event], DAY)


def test_which_of_two_spools_is_asked(ledger: Engine) -> None:
    """Two green spools on one printer: the print names the one it took; one on another printer is not meant."""
    other = tell("spool", "S-2", material="petg", colour="green", lot="L-9", left_g=500.0, printer="bench-2")
    told(ledger, [*chapter(), other], DAY)
    told(ledger, [tell("done", "R-07.2")], DAY)
    third = tell("spool", "S-3", material="petg", colour="green", lot="L-9", left_g=500.0, printer="bench-1")
    told(ledger, [third], DAY)
    with pytest.raises(LedgerError, match="--spool"):
        told(ledger, [tell("done", "R-07.1")], DAY)
    told(ledger, [tell("done", "R-07.1", spool="S-3")], DAY)

    assert [row["left_g"] for row in shown(ledger, "spools", DAY.date())] == [480.0, 500.0, 460.0]


@pytest.mark.parametrize("kind", ["fitted", "handed"])
def test_a_device_of_which_plates_are_not_printed_is_there_only_where_somebody_insists(
    ledger: Engine, kind: str
) -> None:
    """Planned and running plates are named; with all printed, or told all the same, it is taken, and why not is kept."""
    told(ledger, [*chapter(), *chapter("R-08"), tell("started", "R-07.1")], DAY)
    with pytest.raises(LedgerError, match=r"R-07\.2 is not printed, and R-07\.1 is still running.*--even-so"):
        told(ledger, [tell(kind, "R-07")], DAY)
    (kept,) = told(ledger, [tell(kind, "R-07", even_so=True)], DAY)
    told(ledger, printed_and_tested("R-08"), DAY)

    assert kept.body["despite"][:2] == ["R-07.2 is not printed", "R-07.1 is still running"]
    assert told(ledger, [tell(kind, "R-08")], DAY)[0].body == {}


@pytest.mark.parametrize(
    "event",
    [
        *(tell("bought", "cord 1 mm", n=n) for n in (inf, nan, -inf)),
        *(tell("weighed", "S-1", left_g=n) for n in (inf, nan)),
        tell("done", "R-07.1", used_g=inf),
    ],
)
def test_an_amount_without_end_is_refused(ledger: Engine, event: Event) -> None:
    """Metres, grams of a spool and grams of a print that are infinite or no number: nothing is taken."""
    told(ledger, chapter(), DAY)
    with pytest.raises(LedgerError, match="is no amount"):
        told(ledger, [event], DAY)


def test_no_more_is_taken_out_of_the_stock_than_is_in_it(ledger: Engine) -> None:
    """Of 1.5 m, 1 m goes and 3 m do not; all of it goes, and of what never was there nothing does."""
    told(ledger, [tell("bought", "webbing 25 mm", n=1.5), tell("bought", "webbing 25 mm", n=-1.0)], DAY)
    for item in ("webbing 25 mm", "webbing 20 mm"):
        with pytest.raises(LedgerError, match="cannot be taken out"):
            told(ledger, [tell("bought", item, n=-3.0)], DAY)
    told(ledger, [tell("bought", "webbing 25 mm", n=-0.5)], DAY)

    assert shown(ledger, "stock", DAY.date()) == [{"name": "webbing 25 mm", "n": 0.0}]
