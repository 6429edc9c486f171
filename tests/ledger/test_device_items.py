"""What a device takes out of the stock."""

from __future__ import annotations

from dataclasses import replace

from sqlalchemy.engine import Engine

from planner.ledger import Event, devices_that_took, forgotten, items_known, shown, told
from planner.ledger.journal import rebuilt
from tests.ledger.telling import DAY, chapter, tell

ITEMS = [{"item": "screw M3", "unit": "pcs", "n": 5.0}, {"item": "cord 1 mm", "unit": "m", "n": 0.9}]


def _device(code: str = "R-07") -> list[Event]:
    """Return a recipient whose device takes five screws and 0.9 m of cord."""
    spool, job, plates = chapter(code)
    return [spool, replace(job, body={**job.body, "items": ITEMS}), plates]


def _stock(ledger: Engine) -> dict[str, float]:
    """Return what is in stock."""
    return {row["name"]: row["n"] for row in shown(ledger, "stock", DAY.date())}


def test_what_a_fitted_device_is_made_of_leaves_the_stock_once(ledger: Engine) -> None:
    """By hand: of 12 screws and 5 m of cord 7 and 4.1 m stay, fitted, handed over and made anew from the journal."""
    told(ledger, [*_device(), tell("bought", "screw M3", n=12.0), tell("bought", "cord 1 mm", n=5.0)], DAY)
    assert devices_that_took(ledger) == frozenset()

    (fitted,) = told(ledger, [tell("fitted", "R-07", even_so=True)], DAY)
    told(ledger, [*_device(), tell("handed", "R-07", even_so=True), tell("fitted", "R-07", even_so=True)], DAY)
    with ledger.begin() as db:
        rebuilt(db)

    assert fitted.body["took"] == ITEMS
    assert _stock(ledger) == {"screw M3": 7.0, "cord 1 mm": 4.1}
    assert devices_that_took(ledger) == {"R-07"}
    stands, _ = forgotten(ledger, tell("forget", "R-07"), DAY)
    assert devices_that_took(ledger) == {stands}
    assert _stock(ledger) == {"screw M3": 7.0, "cord 1 mm": 4.1}


def test_the_stock_is_never_less_than_none_and_an_older_ledger_takes_nothing(ledger: Engine) -> None:
    """Three screws and no cord were bought: none are left; a device whose items nobody told takes none."""
    told(ledger, [*_device(), *_device("R-08"), *chapter("R-09")], DAY)
    told(
        ledger,
        [tell("bought", "screw M3", n=3.0), tell("fitted", "R-09", even_so=True), tell("handed", "R-07", even_so=True)],
        DAY,
    )

    assert _stock(ledger) == {"screw M3": 0.0}
    assert devices_that_took(ledger) == {"R-07"}


def test_what_devices_take_is_known_by_name(ledger: Engine) -> None:
    """Names of all that any planned device takes; none where nothing was planned."""
    assert items_known(ledger) == frozenset()
    told(ledger, [tell("job", "R-07", items=[{"item": "braided 1 mm", "unit": "m", "n": 0.5}])], DAY)
    assert items_known(ledger) == {"braided 1 mm"}
