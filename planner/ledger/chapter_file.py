"""The chapter's file, ``chapter.toml``: people, printers, their coupons and spools that a new ledger begins with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any
from uuid import uuid4

from planner.errors import LedgerError, nearest
from planner.job import Table, read_printer, read_toml, read_windows
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
    names = [event.subject for event in events if event.kind == "printer"]
    events += [_event("measured", at, *row) for row in _coupons(table, names)]
    _money(table)
    _leads(table)
    _moves(table)
    table.done()
    return tuple(events)


def ledger_beside(path: Path) -> str:
    """Return the ledger that a chapter's file names, a file relative to it or a URL; empty where it names none."""
    table = read_toml(path, LedgerError)
    named = table.table("chapter").text("ledger", "") if table.has("chapter") else ""
    return named if not named or "://" in named else str(path.parent / named)


def moves_of(path: Path) -> int | None:
    """Return how many plates of the last plan may move for a day late less; None where the file does not say."""
    return _moves(read_toml(path, LedgerError))


def _moves(table: Table) -> int | None:
    """Read ``[chapter]``."""
    if not table.has("chapter"):
        return None
    chapter = table.table("chapter")
    chapter.text("ledger", "")
    moves = chapter.count("moves_a_day", 0, low=0, high=1000) if chapter.has("moves_a_day") else None
    chapter.done()
    return moves


def money_of(path: Path) -> dict[str, Any]:
    """Return what a chapter's file says of money, by key: budget, currency, and what is paid for hours and post."""
    table = read_toml(path, LedgerError)
    return _money(table)


def leads_of(path: Path) -> tuple[float | None, dict[str, float]]:
    """Return the days from an order to its arrival that a chapter's file states: of all items, and of some by name."""
    return _leads(read_toml(path, LedgerError))


def _leads(table: Table) -> tuple[float | None, dict[str, float]]:
    """Read ``[buying]``."""
    if not table.has("buying"):
        return None, {}
    buying = table.table("buying")
    days, found = buying.number_or_none("lead_days", high=366.0), dict[str, float]()
    for row in buying.tables("item") if buying.has("item") else ():
        found[row.text("name")] = row.number("lead_days", low=0.0, high=366.0)
        row.done()
    buying.done()
    return days, found


def _money(table: Table) -> dict[str, Any]:
    """Read ``[money]``; rates that are not stated are left out."""
    if not table.has("money"):
        return {}
    money = table.table("money")
    found: dict[str, Any] = {"budget": money.number_or_none("budget", high=1e9)}
    found["currency"] = money.text("currency", "EUR")
    rates = {key: money.number_or_none(key, high=1e6) for key in ("labour_per_h", "wear_per_h", "post_each")}
    rates["reserve_percent"] = money.number_or_none("reserve_percent", high=100.0)
    found["rates"] = {key: rate for key, rate in rates.items() if rate is not None}
    money.done()
    return found


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
        away = [day.isoformat() for span in person.texts("away") for day in days_away(person, span)]
        person.done()
        yield code, {"roles": list(roles), "hours_week": hours_week, "away": away}


def days_away(person: Table, text: str) -> list[date]:
    """Return the days of an absence: "2026-12-24", or "2026-12-24/2027-01-02" with both ends."""
    first, _, last = text.partition("/")
    try:
        begin, end = date.fromisoformat(first.strip()), date.fromisoformat((last or first).strip())
    except ValueError:
        person.refuse("away", f"'{text}' is no day", 'write "2026-12-24", or "2026-12-24/2027-01-02"')
    if not 0 <= (end - begin).days <= 366:
        person.refuse("away", f"'{text}' does not end after its begin within a year", "correct it")
    return [begin + timedelta(days=step) for step in range((end - begin).days + 1)]


def _printers(table: Table, path: Path) -> Iterator[Told]:
    """Yield printers by name; each has a profile that can be read."""
    for printer in table.tables("printer"):
        name = printer.text("name")
        profile = printer.text("profile", name)
        read_printer(profile, path.resolve().parent)
        read_windows(printer, "attended")
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


def _coupons(table: Table, printers: Sequence[str]) -> Iterator[Told]:
    """Yield measured coupons by printer: until when each is believed, for which nozzle and material."""
    for coupon in table.tables("coupon"):
        printer = coupon.text("printer")
        if printer not in printers:
            coupon.refuse("printer", f"no [[printer]] is called '{printer}'", nearest(printer, printers))
        nozzle_mm = coupon.number("nozzle_mm", high=2.0, above=True)
        material, until = coupon.text("material"), coupon.day("until")
        if until is None:
            coupon.refuse("until", "it is missing", "write the last day on which it is believed, as 2027-03-01")
        coupon.done()
        yield printer, {"nozzle_mm": nozzle_mm, "material": material, "until": until.isoformat()}


def _spools(table: Table) -> Iterator[Told]:
    """Yield spools by id."""
    for spool in table.tables("spool"):
        name = spool.text("id")
        body: dict[str, object] = {
            "material": spool.text("material"),
            "colour": spool.text("colour", "any"),
            "lot": spool.text("lot", "", empty=True),
            "left_g": spool.number_or_none("left_g", high=1e6),
            "printer": spool.text("printer", ""),
        }
        spool.done()
        yield name, body
