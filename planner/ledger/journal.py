"""The journal: events are added, read back, and applied again from the first to the last."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Row, create_engine, delete, func, insert, select, text
from sqlalchemy.engine import Connection, Engine
from sqlalchemy.pool import StaticPool

from planner.errors import LedgerError
from planner.ledger.apply_event import applied
from planner.ledger.check_event import completed
from planner.ledger.event import Event
from planner.ledger.tables import EVENT, META, TODAY

Line = tuple[int, datetime, Event]
"""A line of the journal: its number, when the ledger learned of it, and the event."""
NAMED_N = 4
"""So many things that were told are named in a sentence."""


@dataclass(kw_only=True, eq=False)  # not frozen: Python writes __traceback__ on it
class ToldSinceError(LedgerError):
    """Somebody else has told of the same thing since: ``since`` is what, ``seen`` the journal's last line now."""

    since: tuple[Event, ...]
    seen: int


def told(
    engine: Engine, events: Sequence[Event], known_at: datetime, seen: int | None = None, *, of_all: bool = False
) -> tuple[Event, ...]:
    """Take events into a ledger, all or none, and return them as they were kept.

    When this returns they are on disk. One whose key is there already was taken before, and is not taken again.
    ``seen`` is the last line of the journal that whoever tells them had seen; None: whatever was told since. A plan
    hangs on ``of_all`` the chapter, not only on what was told about its own subjects.

    Raises
    ------
    LedgerError
        Where an event tells what cannot be; then none is taken.
    ToldSinceError
        Where a line after ``seen`` is about the subject of one that is not taken yet, or about anything but a note
        where events hang ``of_all``; then none is taken.
    """
    kept = []
    with engine.begin() as db:
        alone(db)
        if of_all and seen is not None:
            _refuse_any_since(db, seen)
        for event in events:
            known = db.execute(select(EVENT.c.id).where(EVENT.c.key == event.key)).first()
            if known is None and seen is not None and not of_all:
                _refuse_since(db, event, seen)
            whole = event if known else completed(db, event)
            if known is None:
                number = _added(db, whole, known_at)
                applied(db, number, whole)
            kept.append(whole)
    return tuple(kept)


def last_line(engine: Engine) -> int:
    """Return the number of the journal's last line; 0 for an empty one."""
    with engine.connect() as db:
        return int(db.execute(select(func.max(EVENT.c.id))).scalar() or 0)


def _refuse_since(db: Connection, event: Event, seen: int) -> None:
    """Refuse an event about what somebody has told of after a line."""
    mine = select(EVENT).where(EVENT.c.id > seen, EVENT.c.subject == event.subject).order_by(EVENT.c.id)
    rows = db.execute(mine).all()
    if rows:
        wrong = f"somebody has told of it since you looked: {', '.join(row.kind for row in rows)}"
        todo = "look at what was told, and tell yours again if it still holds"
        raise ToldSinceError(where=event.subject, wrong=wrong, todo=todo, since=_events(rows), seen=int(rows[-1].id))


def _refuse_any_since(db: Connection, seen: int) -> None:
    """Refuse a plan where the chapter has become another one after a line."""
    rows = db.execute(select(EVENT).where(EVENT.c.id > seen, EVENT.c.kind != "note").order_by(EVENT.c.id)).all()
    if rows:
        told_of = tuple(dict.fromkeys(f"{row.subject} {row.kind}" for row in rows))
        more = f" and {len(told_of) - NAMED_N} more" if len(told_of) > NAMED_N else ""
        wrong = f"this was told while the plan was made: {', '.join(told_of[:NAMED_N])}{more}"
        todo = "plan the chapter again"
        raise ToldSinceError(where="chapter", wrong=wrong, todo=todo, since=_events(rows), seen=int(rows[-1].id))


def told_since(engine: Engine, seen: int) -> tuple[Event, ...]:
    """Return what was told after a line of the journal."""
    with engine.connect() as db:
        return _events(db.execute(select(EVENT).where(EVENT.c.id > seen).order_by(EVENT.c.id)).all())


def _events(rows: Sequence[Row[Any]]) -> tuple[Event, ...]:
    """Return rows of the journal as events."""
    return tuple(
        Event(key=row.key, at=row.at, kind=row.kind, subject=row.subject, role=row.role, body=row.body) for row in rows
    )


def untold(engine: Engine, events: Sequence[Event]) -> tuple[Event, ...]:
    """Return those events that tell something else than the last one of their kind about the same subject."""
    with engine.begin() as db:
        last = {(event.kind, event.subject): dict(event.body) for _, _, event in lines(db)}
    return tuple(event for event in events if last.get((event.kind, event.subject)) != dict(event.body))


def alone(db: Connection) -> None:
    """Let one writer in at a time; SQLite does that by itself when a transaction begins."""
    if db.dialect.name == "postgresql":
        db.execute(text("LOCK TABLE event IN EXCLUSIVE MODE"))


def _added(db: Connection, event: Event, known_at: datetime, number: int | None = None) -> int:
    """Add a line, and return its number."""
    row = {
        "key": event.key,
        "at": event.at,
        "known_at": known_at,
        "role": event.role,
        "kind": event.kind,
        "subject": event.subject,
        "body": dict(event.body),
    }
    made = db.execute(insert(EVENT).values(**row, **({} if number is None else {"id": number})))
    assert made.inserted_primary_key is not None
    return int(made.inserted_primary_key[0])


def lines(db: Connection, until: datetime | None = None) -> Iterator[Line]:
    """Yield the journal in its order, up to what was known at a moment where one is given."""
    rows = select(EVENT).order_by(EVENT.c.id)
    for row in db.execute(rows if until is None else rows.where(EVENT.c.known_at <= until)).all():
        yield row.id, row.known_at, _events([row])[0]


def written_again(db: Connection, journal: Sequence[Line]) -> None:
    """Put a journal in place of what a ledger holds, and make its tables of today from it."""
    db.execute(delete(EVENT))
    for number, known_at, event in journal:
        _added(db, event, known_at, number)
    if db.dialect.name == "postgresql":
        db.execute(text("SELECT setval(pg_get_serial_sequence('event', 'id'), max(id)) FROM event"))
    rebuilt(db)


def rebuilt(db: Connection) -> None:
    """Make the tables of today from the journal, as this program wants them."""
    META.drop_all(db, tables=TODAY)
    META.create_all(db, tables=TODAY)
    for number, _, event in lines(db):
        applied(db, number, event)


def as_known(engine: Engine, until: datetime) -> Engine:
    """Return a ledger in memory that knows what this one knew at a moment."""
    memory = create_engine("sqlite://", poolclass=StaticPool)
    with engine.begin() as db:
        journal = list(lines(db, until))
    with memory.begin() as db:
        META.create_all(db)
        written_again(db, journal)
    return memory
