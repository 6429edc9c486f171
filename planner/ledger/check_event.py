"""An event checked against what the ledger knows, with what follows from it, before it is taken."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from sqlalchemy import select
from sqlalchemy.engine import Connection

from planner.errors import LedgerError, nearest
from planner.ledger.codes import code_of, refuse_telling
from planner.ledger.device.device_doubts import about_device
from planner.ledger.device.device_log import log_told
from planner.ledger.device_items import BUILT, items_to_take
from planner.ledger.event import KINDS, LOG_KINDS, ROLES, Event
from planner.ledger.history.told_values import refuse_impossible
from planner.ledger.plates.doubts import about_printer, about_spool, despite
from planner.ledger.plates.fed_by import fed_by
from planner.ledger.plates.running import begun, known_spool, plate_of, ran_s, spool_begun, spool_of
from planner.ledger.tables import ITEM, JOB, PLACEMENT, PLATE, PRINTER, SPOOL

ABOUT_JOB = ("fitted", "handed", "note", "forget", *LOG_KINDS)
"""Events about a job that has to be there."""


def completed(db: Connection, event: Event) -> Event:
    """Return an event as the journal keeps it, so that it can be applied again without asking anything.

    Raises
    ------
    LedgerError
        Where it tells what cannot be: an unknown plate, a plate that is over, a spool that is not there, a name.
    """
    if event.kind not in KINDS:
        raise LedgerError(where=event.kind, wrong="no event is called so", todo=nearest(event.kind, KINDS))
    if event.role not in ROLES:
        wrong = f"'{event.role}' is no role"
        raise LedgerError(where="--role", wrong=wrong, todo=nearest(event.role, ROLES))
    refuse_impossible(event)
    if event.kind in ("job", "plates", "person") or event.kind in ABOUT_JOB:
        code_of(event.subject, event.kind)
    if event.kind in ABOUT_JOB:
        _known_job(db, event.subject)
    if event.kind == "job":
        for row in event.body.get("overrides", ()):
            refuse_telling(row["reason"], f"{event.subject} [[override]] reason")
    if event.kind == "note" or event.body.get("text"):
        refuse_telling(event.body["text"], event.kind)
    if event.kind in LOG_KINDS:
        return log_told(db, event)
    if event.kind == "started":
        return begun(db, event)
    if event.kind in ("done", "failed"):
        return _over(db, event)
    if event.kind == "plates":
        _none_is_over(db, event)
    if event.kind in BUILT:
        took, doubts = items_to_take(db, event.subject), list(about_device(db, event.subject))
        return replace(event, body={**despite(event, doubts), **({"took": took} if took else {})})
    _known_thing(db, event)
    return _with_lot(db, event) if event.kind == "measured" else event


def _stock_left(db: Connection, event: Event) -> None:
    """Refuse to take more out of the stock than is in it."""
    there = db.execute(select(ITEM.c.n).where(ITEM.c.name == event.subject)).scalar() or 0.0
    if there + event.body["n"] < -1e-6:  # sums of floats
        wrong = f"{-event.body['n']:g} cannot be taken out: {there:g} are in stock"
        raise LedgerError(where=event.subject, wrong=wrong, todo="look at fitwright ledger LEDGER show stock")


def _known_job(db: Connection, code: str) -> None:
    """Refuse a code that no job has."""
    codes = list(db.execute(select(JOB.c.code)).scalars())
    if code not in codes:
        raise LedgerError(where=code, wrong="the ledger has no such job", todo=nearest(code, codes))


def _known_thing(db: Connection, event: Event) -> None:
    """Refuse an event about a spool or a printer that is not there; a spool with its material may be new."""
    if event.kind == "retired" or (event.kind == "weighed" and not event.body.get("material")):
        known_spool(db, event.subject)
    if event.kind in ("nozzle", "measured", "blocked"):
        _known_printer(db, event)
    if event.kind == "bought":
        _stock_left(db, event)
    if event.kind == "blocked":
        refuse_telling(event.body["why"], "--why")
    if event.kind == "measured" and event.body.get("spool"):
        known_spool(db, event.body["spool"])


def _with_lot(db: Connection, event: Event) -> Event:
    """Return a measured coupon with the lot of the spool that it was printed from, where one was named.

    Raises
    ------
    LedgerError
        Where the spool is of another material.
    """
    spool = event.body.get("spool")
    if not spool:
        return event
    row = db.execute(select(SPOOL).where(SPOOL.c.id == spool)).one()
    if row.material != event.body["material"]:
        wrong = f"the coupon is of {event.body['material']}, and spool {spool} is {row.material}"
        raise LedgerError(where=event.subject, wrong=wrong, todo="name the spool that it was printed from")
    return replace(event, body={**event.body, "lot": row.lot})


def _known_printer(db: Connection, event: Event) -> None:
    """Refuse a printer that is not there, and a nozzle that is none."""
    names = list(db.execute(select(PRINTER.c.name)).scalars())
    if event.subject not in names:
        raise LedgerError(
            where=event.subject, wrong="the ledger has no such printer", todo=nearest(event.subject, names)
        )
    if event.kind != "blocked" and not 0.1 <= event.body["nozzle_mm"] <= 2.0:
        wrong = f"{event.body['nozzle_mm']:g} mm is no nozzle"
        raise LedgerError(where="--nozzle", wrong=wrong, todo="write its diameter, such as 0.4")


def _none_is_over(db: Connection, event: Event) -> None:
    """Refuse a plan that asks again for plates that are over: an id is for life."""
    over = select(PLATE.c.id).where(PLATE.c.job == event.subject, PLATE.c.state.in_(("running", "done", "failed")))
    again = sorted(set(db.execute(over).scalars()).intersection(row["id"] for row in event.body["plates"]))
    if again:
        raise LedgerError(
            where=again[0], wrong="this plate is over, or runs", todo="give what is printed again a new id"
        )


def _over(db: Connection, event: Event) -> Event:
    """Return a print that is over with its pieces, its grams and its spool."""
    plate = plate_of(db, event, ("done", "failed"))
    pieces = {row.part: row.n for row in db.execute(select(PLACEMENT).where(PLACEMENT.c.plate == plate.id))}
    lost = _lost(event, pieces)
    good = {part: n - lost.get(part, 0) for part, n in pieces.items() if n > lost.get(part, 0)}
    took_s = ran_s(event, plate)
    # Where some pieces came off whole the plate was printed to its end; else what was laid until it failed is gone.
    share = 1.0 if good else min(1.0, took_s / plate.duration_s)
    used_g = event.body.get("used_g", None if plate.mass_g is None else share * plate.mass_g)
    named, fed = event.body.get("fed"), list[dict[str, Any]]()
    if named:
        fed = fed_by(db, plate.id, named, used_g, weighed="used_g" in event.body)
        used_g, spool = sum(row["used_g"] for row in fed), str(fed[0]["spool"])
    else:
        spool = spool_of(db, event, plate, plate.printer)
    # What was told when it was started was judged then.
    each_g = fed or ([] if spool == spool_begun(db, plate) else [{"spool": spool, "used_g": used_g}])
    doubts = [doubt for row in each_g for doubt in about_spool(db, plate, row["spool"], row["used_g"])]
    doubts += [] if plate.state == "running" else about_printer(db, plate, plate.printer)
    kept = {key: value for key, value in despite(event, doubts).items() if key != "lost"}
    weighed = "used_g" in event.body or bool(named and all(row.get("used_g") is not None for row in named))
    told = ["ran_s"] * ("ran_s" in event.body) + ["used_g"] * weighed
    said = {"ran_s": took_s, "used_g": used_g, "spool": spool, "good": good, "told": told}
    return replace(event, body={**kept, **said, **({"fed": fed} if fed else {})})


def _lost(event: Event, pieces: Mapping[str, int]) -> dict[str, int]:
    """Return the pieces that a print lost: none of one that is done, all of a failed one unless some are named."""
    if event.kind == "done":
        return {}
    lost: dict[str, int] = event.body.get("lost") or dict(pieces)
    for part, n in lost.items():
        if n > pieces.get(part, 0):
            wrong = f"{n} of {part} cannot be lost: {pieces.get(part, 0)} lie on {event.subject}"
            raise LedgerError(where="--lost", wrong=wrong, todo=nearest(part, pieces))
    return lost
