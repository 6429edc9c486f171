"""What a ledger knows, each as rows of plain values."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from datetime import date
from typing import Any

from sqlalchemy import select
from sqlalchemy.engine import Connection, Engine

from planner.errors import LedgerError, nearest
from planner.ledger.codes import job_and_number
from planner.ledger.device.device_log import log_rows, spoilt_pieces
from planner.ledger.plates.running import spool_named
from planner.ledger.tables import (
    COUPON,
    DEVICE_PART,
    FED,
    FOLLOW_UP,
    ITEM,
    JOB,
    MEASURE,
    PLACEMENT,
    PLATE,
    PRINT,
    PRINTER,
    SPOOL,
)

Row = dict[str, Any]


def shown(engine: Engine, view: str, today: date) -> list[Row]:
    """Return the rows of a view.

    Raises
    ------
    LedgerError
        Where there is no such view.
    """
    if view not in VIEWS:
        raise LedgerError(where=view, wrong="there is no such view", todo=nearest(view, VIEWS))
    with engine.begin() as db:
        return [_plain(row) for row in VIEWS[view](db, today)]


def recalled(engine: Engine, lot: str) -> list[Row]:
    """Return every print that a lot went into, with its pieces and whether the device was handed over; then what runs.

    Raises
    ------
    LedgerError
        Where no spool and no print is of that lot.
    """
    with engine.begin() as db:
        lots = {*db.execute(select(SPOOL.c.lot)).scalars(), *db.execute(select(FED.c.lot)).scalars()} - {""}
        if lot not in lots:
            raise LedgerError(where=lot, wrong="no spool is of that lot", todo=nearest(lot, lots) if lots else "")
        rows = db.execute(
            select(PRINT, FED.c.spool.label("fed"), JOB.c.state.label("device"))
            .join(FED, FED.c.event == PRINT.c.event)
            .join(JOB, JOB.c.code == PRINT.c.job, isouter=True)
            .where(FED.c.lot == lot)
            .order_by(PRINT.c.job, PRINT.c.event)
        ).mappings()
        keys = ("job", "device", "plate", "at", "outcome", "good", "spool", "printer")
        over = [{**{key: row[key] for key in keys}, "spool": row["fed"]} for row in rows]
        return [_plain(row) for row in [*over, *_recalled_running(db, lot)]]


def _recalled_running(db: Connection, lot: str) -> list[Row]:
    """Return the plates that run from a spool of a lot: nothing of them is good yet."""
    rows = db.execute(select(PLATE, JOB.c.state.label("device")).join(JOB, JOB.c.code == PLATE.c.job, isouter=True))
    spools = set(db.execute(select(SPOOL.c.id).where(SPOOL.c.lot == lot)).scalars())
    return [
        {
            **{key: row[key] for key in ("job", "device", "printer")},
            "plate": row["id"],
            "at": row["start"],
            "outcome": "running",
            "good": {},
            "spool": spool,
        }
        for row in rows.mappings().all()
        if row["state"] == "running" and (spool := spool_named(db, row["id"])) in spools
    ]


def printed(engine: Engine, job: str, made_as: Mapping[str, str]) -> tuple[Counter[str], Counter[str]]:
    """Return how many pieces of each part of a job came off a plate whole: as they are made now, and otherwise.

    ``made_as`` says of each part from which mesh and at which size it is printed; a piece of another is no piece of it.
    """
    same, other = Counter[str](), Counter[str]()
    with engine.begin() as db:
        rows = select(PRINT.c.good, PLACEMENT.c.part, PLACEMENT.c.made_as).join(
            PLACEMENT, PLACEMENT.c.plate == PRINT.c.plate
        )
        for row in db.execute(rows.where(PRINT.c.job == job)):
            (same if row.made_as == made_as.get(row.part) else other)[row.part] += row.good.get(row.part, 0)
        same.subtract(spoilt_pieces(db, job, made_as))
    return +same, +other


def _plain(row: Row) -> Row:
    """Return a row of plain values: moments as ISO 8601 writes them."""
    return {key: value.isoformat() if isinstance(value, date) else value for key, value in row.items()}


def _printed(db: Connection, job: str) -> Counter[str]:
    """Return how many pieces of each part of a job came off a plate whole."""
    found = Counter[str]()
    for good in db.execute(select(PRINT.c.good).where(PRINT.c.job == job)).scalars():
        found.update(good)
    return +(found - spoilt_pieces(db, job))


def _recipients(db: Connection, today: date) -> list[Row]:  # noqa: ARG001  all views have one signature
    """Return every recipient with what is printed of the device, and how old the oldest measure is."""
    rows = []
    for job in db.execute(select(JOB).order_by(JOB.c.code)).mappings():
        code = job["code"]
        parts = {row.part: row.n for row in db.execute(select(DEVICE_PART).where(DEVICE_PART.c.job == code))}
        have = _printed(db, code)
        taken = db.execute(select(MEASURE.c.taken).where(MEASURE.c.job == code)).scalars()
        rows.append(
            {
                "job": code,
                "state": job["state"],
                "pieces": sum(parts.values()),
                "printed": sum(min(n, have.get(part, 0)) for part, n in parts.items()),
                "deadline": job["deadline"],
                "measured": min((day for day in taken if day), default=None),
            }
        )
    return rows


def _printers(db: Connection, today: date) -> list[Row]:
    """Return every printer with its prints, failures and hours, and whether its coupon is still valid."""
    known = {row["name"]: row for row in db.execute(select(PRINTER)).mappings()}
    prints = db.execute(select(PRINT)).all()
    names = dict.fromkeys([*known, *sorted({row.printer for row in prints})])
    rows = []
    for name in names:
        mine = [row for row in prints if row.printer == name]
        until = known[name]["calibrated_until"] if name in known else None
        rows.append(
            {
                "printer": name,
                "prints": len(mine),
                "failed": sum(row.outcome == "failed" for row in mine),
                "hours": sum(row.ran_s for row in mine) / 3600.0,
                "used_g": sum(row.used_g or 0.0 for row in mine),
                "calibrated_until": until,
                "coupon_valid": None if until is None else today.isoformat() <= until,
                "blocked": known[name]["blocked"] if name in known else None,
            }
        )
    return rows


def _spools(db: Connection, today: date) -> list[Row]:  # noqa: ARG001
    """Return every spool with what is left on it."""
    keys = ("id", "material", "colour", "lot", "left_g", "printer", "opened")
    rows = db.execute(select(SPOOL).order_by(SPOOL.c.id)).mappings()
    return [{**{key: row[key] for key in keys}, "retired": bool(row["retired"])} for row in rows]


def _coupons(db: Connection, today: date) -> list[Row]:
    """Return every coupon by printer, nozzle and material, and whether it is still valid."""
    rows = db.execute(select(COUPON).order_by(COUPON.c.printer, COUPON.c.nozzle_mm, COUPON.c.material)).mappings()
    return [{**row, "valid": today.isoformat() <= row["until"]} for row in rows]


def _stock(db: Connection, today: date) -> list[Row]:  # noqa: ARG001
    """Return what was bought."""
    return [dict(row) for row in db.execute(select(ITEM).order_by(ITEM.c.name)).mappings()]


def _plates(db: Connection, today: date) -> list[Row]:  # noqa: ARG001
    """Return every plate with its pieces, in the order of jobs and numbers."""
    pieces: dict[str, dict[str, int]] = {}
    for row in db.execute(select(PLACEMENT).order_by(PLACEMENT.c.plate, PLACEMENT.c.part)):
        pieces.setdefault(row.plate, {})[row.part] = row.n
    keys = ("id", "state", "printer", "material", "colour", "mass_g", "duration_s", "start", "end")
    rows = [
        {**{key: row[key] for key in keys}, "pieces": pieces.get(row["id"], {})}
        for row in db.execute(select(PLATE)).mappings()
    ]
    return sorted(rows, key=lambda row: job_and_number(row["id"]))


def _due(db: Connection, today: date) -> list[Row]:
    """Return the follow-ups, the next first, and whether they are over their day."""
    rows = db.execute(select(FOLLOW_UP).order_by(FOLLOW_UP.c.due, FOLLOW_UP.c.job))
    return [{"job": row.job, "due": row.due, "overdue": row.due < today.isoformat()} for row in rows]


def _devices(db: Connection, today: date) -> list[Row]:  # noqa: ARG001
    """Return the logs of all devices: tests, spoilt pieces, answers, complaints, repairs, ends."""
    return log_rows(db)


VIEWS = {
    "recipients": _recipients,
    "printers": _printers,
    "spools": _spools,
    "coupons": _coupons,
    "stock": _stock,
    "plates": _plates,
    "due": _due,
    "devices": _devices,
}
"""What can be asked for."""
