"""The log of a device: tests, pieces that broke or got lost, answers to questions, complaints, repairs, its end."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from sqlalchemy import delete, insert, select, update
from sqlalchemy.engine import Connection, Engine

from planner.errors import LedgerError, nearest
from planner.ledger.device_items import last_told
from planner.ledger.event import Event
from planner.ledger.tables import DEVICE_LOG, DEVICE_PART, FOLLOW_UP, JOB, PLATE, PRINT

TURNS = ("tested", "spoilt", "repaired")
"""What decides whether a device is tested."""
NOT_TESTED = "nobody told that it was tested"


def logged(db: Connection, number: int, event: Event) -> None:
    """Write a line of a device's log, and what follows from it for the device."""
    job, body = event.subject, event.body
    row = {
        "text": body.get("text", ""),
        "passed": body.get("passed"),
        "lost": body.get("lost", {}),
        "made": body.get("made", {}),
    }
    db.execute(insert(DEVICE_LOG).values(event=number, job=job, at=event.at, what=event.kind, **row))
    mine = JOB.c.code == job
    if event.kind == "spoilt":  # it is put together again, and tested again
        db.execute(update(JOB).where(mine, JOB.c.state.in_(("fitted", "handed"))).values(state="open"))
    if event.kind == "asked":
        dues = select(FOLLOW_UP.c.due).where(FOLLOW_UP.c.job == job).order_by(FOLLOW_UP.c.due)
        due = list(db.execute(dues).scalars())
        over = [day for day in due if day <= event.at.date().isoformat()] or due[:1]
        db.execute(delete(FOLLOW_UP).where(FOLLOW_UP.c.job == job, FOLLOW_UP.c.due.in_(over)))
    if event.kind == "ended":
        db.execute(update(JOB).where(mine).values(state="ended"))
        db.execute(delete(FOLLOW_UP).where(FOLLOW_UP.c.job == job))
        planned = (PLATE.c.job == job) & (PLATE.c.state == "planned")
        db.execute(update(PLATE).where(planned).values(state="withdrawn", start=None, end=None))


def spoilt_pieces(db: Connection, job: str, made: Mapping[str, str] | None = None) -> Counter[str]:
    """Return how many pieces of each part of a job broke or got lost after they had come off a plate whole.

    ``made`` says from which mesh and at which size each part is printed: pieces of another are left out then.
    """
    found = Counter[str]()
    for row in db.execute(select(DEVICE_LOG).where(DEVICE_LOG.c.job == job, DEVICE_LOG.c.what == "spoilt")):
        for part, n in row.lost.items():
            was = row.made.get(part)
            found[part] += n if made is None or was is None or made.get(part, was) == was else 0
    return found


def untested(db: Connection, job: str) -> list[str]:
    """Return why a device counts as not tested: never, not passed, or changed since.

    Where no test of any device was ever told, tests are kept elsewhere, as in each job's record: nobody can say.
    """
    rows = select(DEVICE_LOG.c.what, DEVICE_LOG.c.passed).where(DEVICE_LOG.c.job == job).order_by(DEVICE_LOG.c.event)
    last = ""
    for row in db.execute(rows):
        if row.what == "tested":
            last = "passed" if row.passed else "it failed its last test"
        elif row.what in ("spoilt", "repaired") and last:
            last = f"it was {row.what} after its last test"
    if not last and db.execute(select(DEVICE_LOG.c.job).where(DEVICE_LOG.c.what == "tested")).first() is None:
        return []
    return [] if last == "passed" else [last or NOT_TESTED]


def tested_devices(engine: Engine) -> frozenset[str]:
    """Return the recipients whose devices passed a test, and had nothing printed, spoilt or repaired since."""
    with engine.begin() as db:
        logs = select(DEVICE_LOG.c.event, DEVICE_LOG.c.job, DEVICE_LOG.c.what, DEVICE_LOG.c.passed)
        rows = [
            (row.event, row.job, row.what == "tested" and bool(row.passed))
            for row in db.execute(logs)
            if row.what in TURNS
        ]
        rows += [(row.event, row.job, False) for row in db.execute(select(PRINT.c.event, PRINT.c.job))]
    last = {job: passed for _, job, passed in sorted(rows)}
    return frozenset(job for job, passed in last.items() if passed)


def log_told(db: Connection, event: Event) -> Event:
    """Return a line of a device's log as the journal keeps it.

    Raises
    ------
    LedgerError
        Where pieces are spoilt that the device does not have, or none are named.
    """
    if event.kind != "spoilt":
        return event
    parts = {row.part: row.n for row in db.execute(select(DEVICE_PART).where(DEVICE_PART.c.job == event.subject))}
    lost: dict[str, Any] = event.body.get("lost", {})
    if not lost:
        raise LedgerError(where="--lost", wrong="nobody said which pieces", todo="add them, such as --lost jaw:1")
    for part, n in lost.items():
        if n > parts.get(part, 0):
            wrong = f"{n} of {part} cannot be spoilt: the device has {parts.get(part, 0)}"
            raise LedgerError(where="--lost", wrong=wrong, todo=nearest(part, parts))
    made = last_told(db, event.subject).get("made", {})
    return replace(event, body={**event.body, "made": {part: made[part] for part in lost if part in made}})


def log_rows(db: Connection) -> list[dict[str, Any]]:
    """Return the logs of all devices, by device, in the order in which they were told."""
    keys = ("job", "at", "what", "passed", "lost", "text")
    rows = select(DEVICE_LOG).order_by(DEVICE_LOG.c.job, DEVICE_LOG.c.event)
    return [{key: row[key] for key in keys} for row in db.execute(rows).mappings()]
