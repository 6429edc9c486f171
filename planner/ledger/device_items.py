"""What a device takes out of the stock, once: when it is fitted, or handed over without that."""

from __future__ import annotations

from typing import Any

from sqlalchemy import select
from sqlalchemy.engine import Connection, Engine

from planner.ledger.tables import EVENT

BUILT = ("fitted", "handed")
"""Events before which a device is put together."""


def items_to_take(db: Connection, job: str) -> list[dict[str, Any]]:
    """Return what a device takes by the last plan, each with item, unit and n; nothing where it took that already."""
    if job in _took(db):
        return []
    return list(last_told(db, job).get("items", ()))


def last_told(db: Connection, job: str) -> dict[str, Any]:
    """Return what the last plan told of a job; nothing where none did."""
    told = select(EVENT.c.body).where(EVENT.c.kind == "job", EVENT.c.subject == job).order_by(EVENT.c.id.desc())
    return dict(db.execute(told.limit(1)).scalar() or {})


def items_known(engine: Engine) -> frozenset[str]:
    """Return the names of all that devices take, as the lists of what to buy and the stock call them."""
    with engine.begin() as db:
        bodies = db.execute(select(EVENT.c.body).where(EVENT.c.kind == "job")).scalars()
        return frozenset(row["item"] for body in bodies for row in body.get("items", ()))


def devices_that_took(engine: Engine) -> frozenset[str]:
    """Return the recipients whose devices took out of the stock what they are made of."""
    with engine.begin() as db:
        return _took(db)


def _took(db: Connection) -> frozenset[str]:
    """Return the recipients whose devices took something."""
    built = db.execute(select(EVENT.c.subject, EVENT.c.body).where(EVENT.c.kind.in_(BUILT)))
    return frozenset(row.subject for row in built if row.body.get("took"))
