"""Running: a plate that was started keeps its printer and its spool until somebody says that it is over."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from sqlalchemy import Row, select
from sqlalchemy.engine import Connection, Engine

from planner.errors import LedgerError, nearest
from planner.ledger.codes import job_and_number
from planner.ledger.event import Event
from planner.ledger.plates.doubts import about_plan, about_printer, about_spool, despite
from planner.ledger.tables import EVENT, PLACEMENT, PLATE, PRINTER, SPOOL


def under_way(engine: Engine) -> list[dict[str, Any]]:
    """Return the plates that run: id, job, printer, when they were started and should end, and their pieces."""
    with engine.begin() as db:
        rows = db.execute(select(PLATE).where(PLATE.c.state == "running").order_by(PLATE.c.id)).mappings().all()
        return [{**row, "spool": spool_named(db, row["id"]), "pieces": pieces_of(db, row["id"])} for row in rows]


def pieces_of(db: Connection, plate: str) -> list[dict[str, Any]]:
    """Return the pieces of a plate: part, how many, what they are printed from, and where each lies."""
    keys = ("part", "n", "made_as", "places")
    rows = db.execute(select(PLACEMENT).where(PLACEMENT.c.plate == plate).order_by(PLACEMENT.c.part)).mappings()
    return [{key: row[key] for key in keys} for row in rows]


def plate_of(db: Connection, event: Event, over: tuple[str, ...]) -> Row[Any]:
    """Return the plate of an event; refuse one that is not there, or in a state in which it cannot be told of.

    One that a later plan withdrew may have been printed from its card all the same.
    """
    job_and_number(event.subject)
    plate = db.execute(select(PLATE).where(PLATE.c.id == event.subject)).first()
    if plate is None:
        ids = list(db.execute(select(PLATE.c.id).where(PLATE.c.state.in_(("planned", "running")))).scalars())
        todo = nearest(event.subject, ids) if ids else "plan first: fitwright chapter JOBS --ledger LEDGER"
        raise LedgerError(where=event.subject, wrong="the ledger has no such plate", todo=todo)
    if plate.state in over:
        wrong = f"this plate is {plate.state}"
        raise LedgerError(where=event.subject, wrong=wrong, todo="look at fitwright ledger LEDGER show plates")
    return plate


def begun(db: Connection, event: Event) -> Event:
    """Return a print that was started, with its printer and the spool that was named.

    Raises
    ------
    LedgerError
        Where the printer is not known, or runs another plate; where something speaks against it and nobody said that it
        is so all the same.
    """
    plate = plate_of(db, event, ("running", "done", "failed"))
    printer = event.body.get("printer") or plate.printer
    known = {*db.execute(select(PRINTER.c.name)).scalars(), *db.execute(select(PLATE.c.printer)).scalars()}
    if printer not in known:
        raise LedgerError(where=printer, wrong="the ledger has no such printer", todo=nearest(printer, known))
    other = db.execute(select(PLATE.c.id).where(PLATE.c.printer == printer, PLATE.c.state == "running")).scalar()
    if other is not None:
        wrong = f"{printer} still runs {other}"
        raise LedgerError(where=event.subject, wrong=wrong, todo=f"first tell that {other} is done, or failed")
    spool = spool_of(db, event, plate, printer)
    doubts = [*about_plan(db, plate), *about_printer(db, plate, printer), *about_spool(db, plate, spool, plate.mass_g)]
    return replace(event, body={**despite(event, doubts), "printer": printer, "spool": spool})


def ran_s(event: Event, plate: Row[Any]) -> float:
    """Return how long a plate ran: as told; a failed one that was logged as started since then; else as planned.

    Raises
    ------
    LedgerError
        Where nobody said when it failed or when it was started, or it is over before it was.
    """
    if plate.state == "running" and event.at < plate.start:
        wrong = f"it was started on {plate.start:%Y-%m-%d at %H:%M}, after that"
        raise LedgerError(where=event.subject, wrong=wrong, todo="correct --when")
    if "ran_s" in event.body:
        return float(event.body["ran_s"])
    if event.kind == "done":
        return float(plate.duration_s)
    if plate.state != "running":
        raise LedgerError(where="--at", wrong="nobody said how long it had run", todo="add --at, such as --at 1h20")
    gone_s: float = (event.at - plate.start).total_seconds()
    return min(float(plate.duration_s), gone_s)


def spool_begun(db: Connection, plate: Row[Any]) -> str:
    """Return the spool that was named when a plate was started; empty where none was."""
    return spool_named(db, plate.id) if plate.state == "running" else ""


def spool_named(db: Connection, plate: str) -> str:
    """Return the spool that a plate was started with, as last told; empty where none was."""
    begun = select(EVENT.c.body).where(EVENT.c.kind == "started", EVENT.c.subject == plate)
    bodies = list(db.execute(begun.order_by(EVENT.c.id)).scalars())
    return str(bodies[-1].get("spool", "")) if bodies else ""


def known_spool(db: Connection, spool: str) -> None:
    """Refuse a spool that is not there."""
    spools = list(db.execute(select(SPOOL.c.id)).scalars())
    if spool not in spools:
        todo = f"{nearest(spool, spools)}; of a new one tell --material and --colour too"
        raise LedgerError(where=spool, wrong="the ledger has no such spool", todo=todo)


def spool_of(db: Connection, event: Event, plate: Row[Any], printer: str) -> str:
    """Return the spool that a print took: the one named, else the only one that can be; empty where none is known."""
    every = db.execute(select(SPOOL).where(SPOOL.c.material == plate.material)).all()
    named = event.body.get("spool", "") or spool_begun(db, plate)
    if named:
        known_spool(db, named)
        return str(named)
    able = [s for s in every if not s.retired and ("any" in (plate.colour, s.colour) or s.colour == plate.colour)]
    mounted = [spool for spool in able if spool.printer == printer] or able
    if len(mounted) > 1:
        wrong = f"{len(mounted)} spools of {plate.material} may have fed it"
        raise LedgerError(where=plate.id, wrong=wrong, todo=f"add --spool {mounted[0].id}, or another of them")
    return str(mounted[0].id) if mounted else ""
