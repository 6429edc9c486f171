"""Doubts: what the ledger knows that speaks against a print as it is told; taken only where somebody says so."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sqlalchemy import Row, select
from sqlalchemy.engine import Connection

from planner.errors import LedgerError
from planner.ledger.event import Event
from planner.ledger.tables import PLACEMENT, PLATE, PRINTER, SPOOL
from planner.phrases import listed

DESPITE = "despite"
"""In an event's body: what spoke against it, in sentences, when it was told all the same."""


def despite(event: Event, doubts: list[str]) -> dict[str, Any]:
    """Return an event's body with what spoke against it.

    Raises
    ------
    LedgerError
        Where something does, and nobody said that it is so all the same.
    """
    body = {key: value for key, value in event.body.items() if key != "even_so"}
    if not doubts:
        return body
    if not event.body.get("even_so"):
        todo = "correct what you tell; if it is so all the same, add --even-so"
        raise LedgerError(where=event.subject, wrong=", and ".join(doubts), todo=todo)
    return {**body, DESPITE: doubts}


def about_plan(db: Connection, plate: Row[Any]) -> Iterator[str]:
    """Yield why a plate should not be started: a later plan withdrew it, and its pieces lie on others, or nowhere."""
    if plate.state != "withdrawn":
        return
    parts = select(PLACEMENT.c.part).where(PLACEMENT.c.plate == plate.id)
    asked = select(PLATE.c.id).join(PLACEMENT, PLACEMENT.c.plate == PLATE.c.id)
    mine = (PLATE.c.job == plate.job) & PLATE.c.state.in_(("planned", "running")) & PLACEMENT.c.part.in_(parts)
    others = sorted(set(db.execute(asked.where(mine)).scalars()))
    yield f"a later plan withdrew it; its pieces are on {listed(others)} now" if others else "a later plan withdrew it"


def about_printer(db: Connection, plate: Row[Any], printer: str) -> Iterator[str]:
    """Yield why a plate should not run on a printer: it is laid out for another kind, or for another nozzle."""
    rows = {row.name: row for row in db.execute(select(PRINTER))}
    mine, meant = rows.get(printer), rows.get(plate.printer)
    if printer != plate.printer and (mine is None or meant is None or mine.profile != meant.profile):
        yield f"it is laid out for {plate.printer}, and {printer} is another kind of printer"
    if mine is not None and None not in (mine.nozzle_mm, plate.nozzle_mm) and mine.nozzle_mm != plate.nozzle_mm:
        yield f"it is planned for a nozzle of {plate.nozzle_mm:g} mm, and {printer} has one of {mine.nozzle_mm:g} mm"


def about_spool(db: Connection, plate: Row[Any], spool: str, used_g: float | None) -> Iterator[str]:
    """Yield why a spool should not feed a plate: another material or colour, retired, or too few grams."""
    row = db.execute(select(SPOOL).where(SPOOL.c.id == spool)).first()
    if row is None:
        return
    if row.material != plate.material:
        yield f"it is planned in {plate.material}, and spool {spool} is {row.material}"
    if "any" not in (row.colour, plate.colour) and row.colour != plate.colour:
        yield f"it is planned in {plate.colour}, and spool {spool} is {row.colour}"
    if row.retired:
        yield f"spool {spool} is retired"
    if row.left_g is not None and used_g is not None and used_g > row.left_g + 0.05:  # grams are told to a tenth
        yield f"it takes {used_g:.1f} g, and spool {spool} has {row.left_g:.1f} g"
