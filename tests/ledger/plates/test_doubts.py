"""What the ledger knows against a print is said, and kept where somebody says that it is so all the same."""

from __future__ import annotations

from typing import Any

import pytest
from sqlalchemy.engine import Engine

from planner.errors import LedgerError
from planner.ledger import Event, shown, told
from tests.ledger.telling import DAY, chapter, plate, tell


def _chapter() -> list[Event]:
    """Return a recipient with a plate of 40 g in green for bench-1 and a nozzle of 0.4 mm, three printers, five spools."""
    printers = [("bench-1", "bench-220"), ("bench-2", "bench-220"), ("cabinet", "cabinet-250"), ("wide", "bench-220")]
    green: dict[str, Any] = {"material": "petg", "colour": "green", "lot": "", "left_g": 500.0, "printer": ""}
    planned = {**plate("R-07.1", jaw=2), "nozzle_mm": 0.4}
    return [
        *chapter()[:2],
        *(tell("printer", name, profile=kind, attended=[], calibrated_until=None) for name, kind in printers),
        tell("nozzle", "wide", nozzle_mm=0.6),
        tell("nozzle", "bench-2", nozzle_mm=0.4),
        tell("spool", "PLA", **{**green, "material": "pla"}),
        tell("spool", "RED", **{**green, "colour": "red"}),
        tell("spool", "END", **{**green, "left_g": 39.0}),
        tell("spool", "OLD", **green),
        tell("retired", "OLD"),
        tell("plates", "R-07", plates=[planned]),
    ]


@pytest.mark.parametrize("kind", ["started", "done", "failed"])
@pytest.mark.parametrize(
    ("body", "says"),
    [
        ({"spool": "PLA"}, "planned in petg, and spool PLA is pla"),
        ({"spool": "RED"}, "planned in green, and spool RED is red"),
        ({"spool": "END"}, "takes 40.0 g, and spool END has 39.0 g"),
        ({"spool": "OLD"}, "spool OLD is retired"),
    ],
)
def test_a_spool_that_cannot_be_is_refused_unless_told(
    ledger: Engine, kind: str, body: dict[str, Any], says: str
) -> None:
    """Another material, another colour, 39 of 40 g, a retired one: refused when it starts, ends or fails at its end."""
    more: dict[str, Any] = {"cause": "loose", "ran_s": 7200.0} if kind == "failed" else {}
    told(ledger, _chapter(), DAY)
    with pytest.raises(LedgerError, match=says) as refused:
        told(ledger, [tell(kind, "R-07.1", **body, **more)], DAY)
    assert "--even-so" in str(refused.value)
    assert [row["state"] for row in shown(ledger, "plates", DAY.date())] == ["planned"]

    (kept,) = told(ledger, [tell(kind, "R-07.1", **body, **more, even_so=True)], DAY)
    assert any(says in doubt for doubt in kept.body["despite"])
    assert "even_so" not in kept.body
    if kind == "started":  # what was said at its start is not asked again at its end
        told(ledger, [tell("done", "R-07.1")], DAY)


@pytest.mark.parametrize(("printer", "says"), [("cabinet", "another kind of printer"), ("wide", "nozzle of 0.4 mm")])
def test_a_printer_that_cannot_be_is_refused_unless_told(ledger: Engine, printer: str, says: str) -> None:
    """Another kind of printer, or one with another nozzle: refused; a second one of the same kind takes the plate."""
    told(ledger, _chapter(), DAY)
    with pytest.raises(LedgerError, match=says):
        told(ledger, [tell("started", "R-07.1", printer=printer, spool="S-1")], DAY)
    told(ledger, [tell("started", "R-07.1", printer="bench-2", spool="S-1")], DAY)


def test_a_retired_spool_is_chosen_for_nothing(ledger: Engine) -> None:
    """Of a full spool and a retired one the full one fed the plate, without a question."""
    told(ledger, _chapter(), DAY)
    told(ledger, [tell("retired", "END"), tell("done", "R-07.1")], DAY)

    left = {row["id"]: (row["left_g"], row["retired"]) for row in shown(ledger, "spools", DAY.date())}
    assert left["S-1"] == (460.0, False)
    assert left["OLD"] == (500.0, True)


@pytest.mark.parametrize(
    ("event", "says"),
    [
        (tell("nozzle", "bench-9", nozzle_mm=0.4), "no such printer"),
        (tell("nozzle", "bench-1", nozzle_mm=40.0), "no nozzle"),
        (tell("measured", "bench-9", nozzle_mm=0.4, material="petg", until="2027-01-01"), "no such printer"),
        (tell("retired", "S-9"), "no such spool"),
    ],
)
def test_a_machine_that_is_not_there_is_refused(ledger: Engine, event: Event, says: str) -> None:
    """An unknown printer or spool, or a nozzle of 40 mm: nothing is taken."""
    told(ledger, _chapter(), DAY)
    with pytest.raises(LedgerError, match=says):
        told(ledger, [event], DAY)
