"""The chapter's file, ``chapter.toml``: the people, printers and spools that a new ledger begins with."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from uuid import uuid4

from planner.errors import LedgerError
from planner.job import Table, read_printer, read_toml
from planner.ledger.codes import code_of
from planner.ledger.event import ROLES, Event


def events_of(path: Path, at: datetime) -> tuple[Event, ...]:
    """Return what a chapter's file tells, as events.

    Raises
    ------
    LedgerError, ProfileError
        With file, key, what is wrong and what to do.
    """
    table = read_toml(path, LedgerError)
    events = [
        *(_event("person", at, *row) for row in _people(table)),
        *(_event("printer", at, *row) for row in _printers(table, path)),
        *(_event("spool", at, *row) for row in _spools(table)),
    ]
    if table.has("chapter"):
        chapter = table.table("chapter")
        chapter.text("ledger", "")
        chapter.done()
    table.done()
    return tuple(events)


def ledger_beside(path: Path) -> str:
    """Return the ledger that a chapter's file names, a file relative to it or a URL; empty where it names none."""
    table = read_toml(path, LedgerError)
    named = table.table("chapter").text("ledger", "") if table.has("chapter") else ""
    return named if not named or "://" in named else str(path.parent / named)


Told = tuple[str, dict[str, object]]
"""A subject and what is told of it."""


def _event(kind: str, at: datetime, subject: str, body: dict[str, object]) -> Event:
    """Return an event of the chapter's lead."""
    return Event(key=uuid4().hex, at=at, kind=kind, subject=subject, role="lead", body=body)


def _people(table: Table) -> Iterator[Told]:
    """Yield people by code."""
    for person in table.tables("person"):
        code = code_of(person.text("code"), f"{person.where} code")
        roles = person.texts("roles", least=1)
        for role in roles:
            if role not in ROLES:
                person.refuse("roles", f"'{role}' is no role", f"roles are {', '.join(ROLES)}")
        hours_week = person.number_or_none("hours_week", high=168.0)
        away = [str(day) for day in person.texts("away")]
        person.done()
        yield code, {"roles": list(roles), "hours_week": hours_week, "away": away}


def _printers(table: Table, path: Path) -> Iterator[Told]:
    """Yield printers by name; each has a profile that can be read."""
    for printer in table.tables("printer"):
        name = printer.text("name")
        profile = printer.text("profile", name)
        read_printer(profile, path.resolve().parent)
        attended, until = list(printer.texts("attended")), printer.day("calibrated_until")
        printer.done()
        yield (
            name,
            {
                "profile": profile,
                "attended": attended,
                "calibrated_until": until.isoformat() if until else None,
            },
        )


def _spools(table: Table) -> Iterator[Told]:
    """Yield spools by id."""
    for spool in table.tables("spool"):
        name = spool.text("id")
        body: dict[str, object] = {
            "material": spool.text("material"),
            "colour": spool.text("colour", "any"),
            "lot": spool.text("lot", ""),
            "left_g": spool.number_or_none("left_g", high=1e6),
            "printer": spool.text("printer", ""),
        }
        spool.done()
        yield name, body
