"""What each event changes in the tables of today."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Callable
from datetime import date, datetime, timedelta

from sqlalchemy import Table, delete, insert, select, update
from sqlalchemy.engine import Connection

from planner.ledger.device.device_log import logged
from planner.ledger.event import LOG_KINDS, Event
from planner.ledger.tables import (
    BACKUP,
    COUPON,
    COUPON_READ,
    DEVICE_LOG,
    DEVICE_PART,
    FED,
    FOLLOW_UP,
    ITEM,
    JOB,
    MEASURE,
    NOTE,
    ORDER,
    OVERRIDE,
    PERSON,
    PLACEMENT,
    PLATE,
    PRINT,
    PRINTER,
    SPOOL,
    put,
)

FOLLOW_UP_MONTHS = (1, 3, 6)
"""After a week, how many months after the hand-over somebody asks how it goes; common practice, no source."""


def applied(db: Connection, number: int, event: Event) -> None:
    """Change the tables of today by an event, whose ``number`` is that in the journal."""
    CHANGES[event.kind](db, number, event)


def _job(db: Connection, number: int, event: Event) -> None:  # noqa: ARG001  all have one signature
    """Write a recipient's job: the device, the measures, and the holds that somebody lifted."""
    code, body = event.subject, event.body
    there = db.execute(select(JOB.c.state, JOB.c.handed_at).where(JOB.c.code == code)).first()
    state, handed_at = (there.state, there.handed_at) if there else ("open", None)
    put(
        db,
        JOB,
        code=code,
        state=state,
        scale_percent=body.get("scale_percent"),
        deadline=body.get("deadline"),
        handed_at=handed_at,
    )
    for table, key in ((MEASURE, "measures"), (DEVICE_PART, "parts"), (OVERRIDE, "overrides")):
        db.execute(delete(table).where(table.c.job == code))
        for n, row in enumerate(body.get(key, ()), 1):
            db.execute(insert(table).values(**{"job": code, "n": n, **row}))


def _thing(table: Table, key: str) -> Callable[[Connection, int, Event], None]:
    """Return what writes the row of a person, a printer or a spool."""

    def write(db: Connection, number: int, event: Event) -> None:  # noqa: ARG001
        """Write the row."""
        put(db, table, **{key: event.subject, **event.body})

    return write


def _plates(db: Connection, number: int, event: Event) -> None:  # noqa: ARG001
    """Write the plates that a plan asks for; those of the same job that it no longer asks for are withdrawn."""
    planned = (PLATE.c.job == event.subject) & (PLATE.c.state == "planned")
    db.execute(update(PLATE).where(planned).values(state="withdrawn", start=None, end=None))
    for row in event.body["plates"]:
        plate = {key: value for key, value in row.items() if key != "pieces"}
        times = {key: _moment(row.get(key)) for key in ("start", "end")}
        put(db, PLATE, **{**plate, **times, "job": event.subject, "state": "planned"})
        db.execute(delete(PLACEMENT).where(PLACEMENT.c.plate == row["id"]))
        for piece in row["pieces"]:
            db.execute(insert(PLACEMENT).values(plate=row["id"], **piece))


def _started(db: Connection, number: int, event: Event) -> None:  # noqa: ARG001
    """Write that a plate runs, on which printer, and until when it should."""
    plate = db.execute(select(PLATE).where(PLATE.c.id == event.subject)).one()
    runs = {"printer": event.body["printer"], "start": event.at, "end": event.at + timedelta(seconds=plate.duration_s)}
    db.execute(update(PLATE).where(PLATE.c.id == event.subject).values(state="running", **runs))


def _print(db: Connection, number: int, event: Event) -> None:
    """Write a print that is over, and take its grams off the spools that fed it."""
    body = event.body
    plate = db.execute(select(PLATE).where(PLATE.c.id == event.subject)).one()
    db.execute(update(PLATE).where(PLATE.c.id == event.subject).values(state=event.kind))
    fed = body.get("fed") or [{"spool": body["spool"], "used_g": body["used_g"]}]
    lots = [_taken_off(db, event, each["spool"], each["used_g"]) for each in fed]
    told = body.get("told", ())
    db.execute(
        insert(PRINT).values(
            event=number,
            plate=event.subject,
            job=plate.job,
            at=event.at,
            outcome=event.kind,
            cause=body.get("cause", ""),
            ran_s=body["ran_s"],
            used_g=body["used_g"],
            printer=plate.printer,
            spool=body["spool"],
            lot=lots[0],
            role=event.role,
            good=body["good"],
            took_s=body["ran_s"] if event.kind == "done" and "ran_s" in told else None,
            weighed_g=body["used_g"] if "used_g" in told else None,
        )
    )
    for n, (each, lot) in enumerate(zip(fed, lots, strict=True), 1):
        db.execute(insert(FED).values(event=number, n=n, spool=each["spool"], lot=lot, used_g=each["used_g"]))


def _taken_off(db: Connection, event: Event, name: str, used_g: float | None) -> str:
    """Take grams off a spool, which is opened now at the latest, and return its lot; empty for one nobody knows."""
    spool = db.execute(select(SPOOL).where(SPOOL.c.id == name)).first()
    if spool is None:
        return ""
    if spool.left_g is not None and used_g is not None:
        left_g = max(0.0, spool.left_g - used_g)
        db.execute(update(SPOOL).where(SPOOL.c.id == name).values(left_g=left_g))
    if spool.opened is None:
        db.execute(update(SPOOL).where(SPOOL.c.id == name).values(opened=event.at))
    return str(spool.lot)


def _weighed(db: Connection, number: int, event: Event) -> None:  # noqa: ARG001
    """Write what a scale says about a spool; one that is new with what else is told of it."""
    there = db.execute(select(SPOOL).where(SPOOL.c.id == event.subject)).mappings().first()
    row = dict(there) if there else {"material": "", "colour": "any", "lot": "", "printer": "", "opened": None}
    put(db, SPOOL, **{**row, **event.body, "id": event.subject})


def _retired(db: Connection, number: int, event: Event) -> None:  # noqa: ARG001
    """Write that a spool feeds no plate any more."""
    db.execute(update(SPOOL).where(SPOOL.c.id == event.subject).values(retired=True))


def _nozzle(db: Connection, number: int, event: Event) -> None:  # noqa: ARG001
    """Write which nozzle is in a printer now."""
    db.execute(update(PRINTER).where(PRINTER.c.name == event.subject).values(nozzle_mm=event.body["nozzle_mm"]))


def _measured(db: Connection, number: int, event: Event) -> None:
    """Write until when a coupon of a printer, a nozzle and a material is believed, and what was read; it runs again."""
    body = event.body
    put(db, COUPON, printer=event.subject, **{key: body[key] for key in ("nozzle_mm", "material", "until")})
    db.execute(update(PRINTER).where(PRINTER.c.name == event.subject).values(blocked=None))
    if body.get("readings"):
        row = {key: body[key] for key in ("nozzle_mm", "material", "taken", "readings")}
        db.execute(insert(COUPON_READ).values(event=number, printer=event.subject, lot=body.get("lot", ""), **row))


def _blocked(db: Connection, number: int, event: Event) -> None:  # noqa: ARG001
    """Write that nothing is planned on a printer until its coupon is measured."""
    db.execute(update(PRINTER).where(PRINTER.c.name == event.subject).values(blocked=event.body["why"]))


def _bought(db: Connection, number: int, event: Event) -> None:
    """Write an order, and add it to the stock."""
    n = event.body["n"]
    had = db.execute(select(ITEM.c.n).where(ITEM.c.name == event.subject)).scalar() or 0.0
    put(db, ITEM, name=event.subject, n=had + n)
    db.execute(insert(ORDER).values(event=number, item=event.subject, n=n, at=event.at))


def _fitted(db: Connection, number: int, event: Event) -> None:  # noqa: ARG001
    """Write that a device was fitted, and take out of the stock what it is made of."""
    _taken_out(db, event)
    db.execute(update(JOB).where(JOB.c.code == event.subject).values(state="fitted"))


def _handed(db: Connection, number: int, event: Event) -> None:  # noqa: ARG001
    """Write that a device was handed over, and when to ask how it goes; what it is made of leaves the stock."""
    _taken_out(db, event)
    db.execute(update(JOB).where(JOB.c.code == event.subject).values(state="handed", handed_at=event.at))
    db.execute(delete(FOLLOW_UP).where(FOLLOW_UP.c.job == event.subject))
    for due in follow_ups(event.at.date()):
        db.execute(insert(FOLLOW_UP).values(job=event.subject, due=due.isoformat()))


def _taken_out(db: Connection, event: Event) -> None:
    """Take out of the stock what a device took; of what nobody bought by this ledger there is none to take."""
    for row in event.body.get("took", ()):
        had = db.execute(select(ITEM.c.n).where(ITEM.c.name == row["item"])).scalar()
        if had is not None:
            put(db, ITEM, name=row["item"], n=max(0.0, had - row["n"]))


def _note(db: Connection, number: int, event: Event) -> None:
    """Write a note."""
    db.execute(insert(NOTE).values(event=number, job=event.subject, at=event.at, text=event.body["text"]))


def _forget(db: Connection, number: int, event: Event) -> None:  # noqa: ARG001
    """Take out what was measured and noted of a recipient, and what is planned; the prints stay, under no code."""
    for table in (MEASURE, OVERRIDE, FOLLOW_UP, NOTE, DEVICE_LOG):
        db.execute(delete(table).where(table.c.job == event.subject))
    planned = (PLATE.c.job == event.subject) & (PLATE.c.state == "planned")
    db.execute(update(PLATE).where(planned).values(state="withdrawn", start=None, end=None))
    gone = {"state": "forgotten", "scale_percent": None, "deadline": None, "handed_at": None}
    db.execute(update(JOB).where(JOB.c.code == event.subject).values(**gone))


def _backup(db: Connection, number: int, event: Event) -> None:
    """Write where a backup lies."""
    db.execute(insert(BACKUP).values(event=number, path=event.body["path"], at=event.at))


CHANGES: dict[str, Callable[[Connection, int, Event], None]] = {
    "job": _job,
    "person": _thing(PERSON, "code"),
    "printer": _thing(PRINTER, "name"),
    "spool": _weighed,
    "plates": _plates,
    "started": _started,
    "done": _print,
    "failed": _print,
    "weighed": _weighed,
    "retired": _retired,
    "nozzle": _nozzle,
    "measured": _measured,
    "blocked": _blocked,
    "bought": _bought,
    "fitted": _fitted,
    "handed": _handed,
    "note": _note,
    "forget": _forget,
    "backup": _backup,
    **dict.fromkeys(LOG_KINDS, logged),
}
"""What changes the tables, by kind of event."""


def follow_ups(handed: date) -> tuple[date, ...]:
    """Return when to ask after a hand-over: after a week, then after some months.

    >>> [day.isoformat() for day in follow_ups(date(2026, 8, 31))]
    ['2026-09-07', '2026-09-30', '2026-11-30', '2027-02-28']
    """
    found = [handed + timedelta(days=7)]
    for months in FOLLOW_UP_MONTHS:
        year, month = handed.year + (handed.month - 1 + months) // 12, (handed.month - 1 + months) % 12 + 1
        found.append(date(year, month, min(handed.day, monthrange(year, month)[1])))
    return tuple(found)


def _moment(text: str | None) -> datetime | None:
    """Return a moment of a body; None where there is none."""
    return None if text is None else datetime.fromisoformat(text)
