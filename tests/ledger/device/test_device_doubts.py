"""A device is said to be there only where its pieces came off whole and the stock had what it takes."""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from uuid import uuid4

import pytest
from sqlalchemy.engine import Engine

from planner.errors import LedgerError
from planner.ledger import Event, told
from tests.ledger.telling import DAY, chapter, plate, printed_and_tested, tell

TESTED = tell("tested", "R-07", passed=True)
BUILT = pytest.mark.parametrize("kind", ["fitted", "handed"])


def _device(**more: Any) -> list[Event]:
    """Return a recipient whose last plan told more than the tests' usual one."""
    spool, job, plates = chapter()
    return [spool, replace(job, body={**job.body, **more}), plates]


@BUILT
@pytest.mark.parametrize(
    ("lost", "says"), [({"jaw": 1}, r"jaw x 1 \(lost on R-07\.1\)"), ({}, r"jaw x 2 \(lost on R-07\.1\)")]
)
def test_pieces_lost_on_a_failed_plate_speak_against_the_device(
    ledger: Engine, kind: str, lost: dict[str, int], says: str
) -> None:
    """One or all jaws of a failed plate that nobody planned again: refused by name, until a plate brought them."""
    failed = tell("failed", "R-07.1", cause="loose", ran_s=7200.0, lost=lost)
    told(ledger, [*chapter(), failed, tell("done", "R-07.2"), replace(TESTED, key=uuid4().hex)], DAY)
    with pytest.raises(LedgerError, match=rf"no plate brings {says}"):
        told(ledger, [tell(kind, "R-07")], DAY)

    again = {"jaw": lost.get("jaw", 2)}
    told(ledger, [tell("plates", "R-07", plates=[plate("R-07.3", **again)])], DAY)
    with pytest.raises(LedgerError, match=r"R-07\.3 is not printed; correct"):
        told(ledger, [tell(kind, "R-07")], DAY)
    told(ledger, [tell("done", "R-07.3")], DAY)
    assert "despite" not in told(ledger, [tell(kind, "R-07")], DAY)[0].body


@BUILT
def test_a_device_that_was_never_laid_out_is_not_there(ledger: Engine, kind: str) -> None:
    """A job without a plate, or whose plates were withdrawn: every piece is named."""
    told(ledger, [*chapter()[:2], *chapter("R-08"), tell("plates", "R-08", plates=[])], DAY)
    for code in ("R-07", "R-08"):
        with pytest.raises(LedgerError, match="no plate brings cap x 1 and jaw x 2"):
            told(ledger, [tell(kind, code)], DAY)


@BUILT
def test_pieces_of_another_size_are_none_of_the_device(ledger: Engine, kind: str) -> None:
    """The jaws were printed, then the device was planned at another size: they are told as missing."""
    told(ledger, [*_device(made={"jaw": "as drawn", "cap": "as drawn"}), tell("done", "R-07.1")], DAY)
    told(ledger, [tell("done", "R-07.2"), *_device(made={"jaw": "larger", "cap": "as drawn"})[1:2]], DAY)
    with pytest.raises(LedgerError, match=r"no plate brings jaw x 2 \(printed from another mesh or size\)"):
        told(ledger, [tell(kind, "R-07", even_so=None)], DAY)


@BUILT
def test_what_is_said_to_be_fitted_is_asked_again_when_it_is_handed_over(ledger: Engine, kind: str) -> None:
    """Fitted all the same without its cap: that does not make it whole for the next one who says so."""
    told(ledger, [*chapter(), tell("done", "R-07.1"), tell("fitted", "R-07", even_so=True)], DAY)
    with pytest.raises(LedgerError, match=r"R-07\.2 is not printed"):
        told(ledger, [tell(kind, "R-07")], DAY)


@BUILT
def test_hardware_cord_and_straps_that_the_stock_lacks_speak_against_the_device(ledger: Engine, kind: str) -> None:
    """Five screws, 0.9 m of cord and 0.5 m of strap of 5, 0.4 and none: both short ones told; bought, it is taken."""
    items = [
        {"item": "screw M3", "unit": "pcs", "n": 5.0},
        {"item": "cord 1 mm", "unit": "m", "n": 0.9},
        {"item": "webbing 20 mm", "unit": "m", "n": 0.5},
    ]
    over = printed_and_tested()
    told(ledger, [*_device(items=items), *over, tell("bought", "screw M3", n=5.0)], DAY)
    told(ledger, [tell("bought", "cord 1 mm", n=0.4)], DAY)
    says = r"takes 0\.9 m of cord 1 mm \(0\.4 there\) and 0\.5 m of webbing 20 mm \(0 there\), more than the stock has"
    with pytest.raises(LedgerError, match=says):
        told(ledger, [tell(kind, "R-07")], DAY)

    told(ledger, [tell("bought", "cord 1 mm", n=0.5), tell("bought", "webbing 20 mm", n=0.5)], DAY)
    assert "despite" not in told(ledger, [tell(kind, "R-07")], DAY)[0].body


def test_a_chapter_without_a_stock_is_not_asked_about_it(ledger: Engine) -> None:
    """Nothing was ever bought by this ledger: it cannot say what is missing, and takes the device."""
    over = printed_and_tested()
    told(ledger, [*_device(items=[{"item": "screw M3", "unit": "pcs", "n": 5.0}]), *over, tell("fitted", "R-07")], DAY)


@BUILT
@pytest.mark.parametrize(
    ("log", "says"),
    [
        ([], "nobody told that it was tested"),
        ([tell("tested", "R-07", passed=False)], "it failed its last test"),
        ([TESTED, tell("tested", "R-07", passed=False)], "it failed its last test"),
        ([TESTED, tell("repaired", "R-07", text="new cord")], "it was repaired after its last test"),
        ([TESTED, tell("spoilt", "R-07", lost={"jaw": 1})], r"jaw x 1 \(spoilt since\), and it was spoilt after"),
    ],
)
def test_a_device_is_there_only_after_a_test_that_it_passed(
    ledger: Engine, kind: str, log: list[Event], says: str
) -> None:
    """Never tested, failed, repaired or a piece spoilt since: refused; another test that it passes settles all but pieces."""
    other = [*chapter("R-11")[1:], tell("tested", "R-11", passed=True)]  # tests are told to this ledger
    log = [replace(event, key=uuid4().hex) for event in log]
    told(ledger, [*chapter(), *printed_and_tested()[:2], *other, *log], DAY)
    with pytest.raises(LedgerError, match=says):
        told(ledger, [tell(kind, "R-07")], DAY)
    told(ledger, [tell("tested", "R-07", passed=True)], DAY)
    if log and log[-1].kind == "spoilt":
        with pytest.raises(LedgerError, match=r"no plate brings jaw x 1 \(spoilt since\)"):
            told(ledger, [tell(kind, "R-07")], DAY)
    else:
        told(ledger, [tell(kind, "R-07")], DAY)


def test_a_ledger_that_is_told_no_tests_does_not_ask_for_one(ledger: Engine) -> None:
    """Tests are in the jobs' own records there: the ledger cannot say that one is missing."""
    told(ledger, [*chapter(), *printed_and_tested()[:2], tell("fitted", "R-07"), tell("handed", "R-07")], DAY)
