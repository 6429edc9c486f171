"""Months ahead: what the ledger's history gives to play the months to come from, or what it is too thin for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, time
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from sqlalchemy import select
from sqlalchemy.engine import Connection, Engine

from planner.errors import LedgerError
from planner.job import Attended, Printer, Table, read_windows
from planner.ledger.history.learned import History
from planner.ledger.tables import EVENT, JOB, PLATE, PRINT, PRINTER
from planner.phrases import plural

if TYPE_CHECKING:
    from planner.schedule import Bench, Months

Row = dict[str, Any]
LEAST_DAYS, LEAST_ARRIVALS, LEAST_PRINTS, LEAST_HANDED = 28, 5, 5, 3
"""A shorter or thinner history tells no months; our choice, no source."""
FAILS_RATIO = 2 * 1.645
"""A 90 % interval is so many standard deviations wide."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthsAhead:
    """The months to come, each by its first and its last day; nothing where the history lacks what ``missing`` says."""

    months: tuple[tuple[datetime, datetime], ...] = ()
    brings: Months | None = None
    missing: tuple[str, ...] = ()
    arrived_n: int = 0
    seen_days: float = 0.0
    handed_n: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Seen:
    """What the journal and the tables of today tell of devices."""

    begun: datetime
    arrived: Mapping[str, datetime]
    devices: Mapping[str, tuple[float, ...]]
    """By job the minutes of the plates that its device is made of."""
    left: Mapping[str, tuple[float, ...]]
    """By job that is not handed over the minutes of the plates that are still to be printed."""
    lags_min: tuple[float, ...]
    prints_n: int
    hours: tuple[tuple[Attended, ...], bool]
    """When somebody is there by the last job that was told, and whether plates run on alone."""
    running: Mapping[str, datetime]
    printers: tuple[Row, ...]


def months_ahead(
    engine: Engine, history: History, profiles: Mapping[str, Printer], now: datetime, months_n: int
) -> MonthsAhead:
    """Return what the rest of this month and the next ``months_n`` months bring, played from the ledger's history.

    A device comes in when its job is first planned; those of the ledger's first day were there before. Devices are
    drawn from those of the ledger, and what hands took after the last plate from those that were handed over.
    """
    from planner.schedule import DAY_MIN, Past, coming_months  # noqa: PLC0415  a second: an event need not wait for it

    seen = _seen(engine)
    if seen is None:
        return MonthsAhead(missing=("the ledger has no job yet: plan the chapter with it",))
    came = [at for at in seen.arrived.values() if at.date() > seen.begun.date()]
    seen_days = (now - seen.begun).total_seconds() / 86400.0
    benches = _benches(seen, history, profiles, now)
    missing = _missing(seen, seen_days, len(came), benches)
    told = MonthsAhead(missing=missing, arrived_n=len(came), seen_days=seen_days, handed_n=len(seen.lags_min))
    if missing:
        return told
    months = _months(now, months_n)
    past = Past(
        benches=benches,
        devices=tuple(seen.devices.values()),
        backlog=tuple(seen.left[code] for code in sorted(seen.left, key=lambda code: seen.arrived[code])),
        lags_min=seen.lags_min,
        arrived_n=len(came),
        seen_days=seen_days,
    )
    brings = coming_months(past, [(end - now).total_seconds() * DAY_MIN / 86400.0 for _, end in months])
    return replace(told, months=months, brings=brings)


def _missing(seen: _Seen, seen_days: float, came_n: int, benches: Sequence[Bench]) -> tuple[str, ...]:
    """Return what the history lacks, a sentence each."""
    found = []
    if seen_days < LEAST_DAYS:
        found.append(f"the ledger is {plural(int(seen_days), 'day')} old, and {LEAST_DAYS} are needed")
    if came_n < LEAST_ARRIVALS:
        found.append(f"{plural(came_n, 'device')} came in after its first day, and {LEAST_ARRIVALS} are needed")
    if seen.prints_n < LEAST_PRINTS:
        found.append(f"{plural(seen.prints_n, 'print')} told as done or failed, and {LEAST_PRINTS} are needed")
    if len(seen.lags_min) < LEAST_HANDED:
        handed = plural(len(seen.lags_min), "device")
        found.append(f"{handed} printed and handed over, and {LEAST_HANDED} are needed: fitwright handed JOB")
    if not seen.devices:
        found.append("no device has plates: plan the chapter with the ledger")
    if not benches:
        found.append("no printer has hours: write attended into [[printer]] of chapter.toml, then ledger LEDGER fill")
    return tuple(found)


def _seen(engine: Engine) -> _Seen | None:
    """Return what the ledger tells of devices; None where it has no job."""
    with engine.begin() as db:
        first = db.execute(select(EVENT.c.at).order_by(EVENT.c.at).limit(1)).scalar()
        told = db.execute(select(EVENT.c.subject, EVENT.c.at, EVENT.c.body).where(EVENT.c.kind == "job")).all()
        if first is None or not told:
            return None
        arrived: dict[str, datetime] = {}
        for row in told:
            arrived[row.subject] = min(row.at, arrived.get(row.subject, row.at))
        last = max(told, key=lambda row: row.at).body
        windows = tuple(Attended(days=tuple(days), from_min=a, to_min=b) for days, a, b in last.get("hours", ()))
        devices, left = _plates(db)
        states = {row.code: row for row in db.execute(select(JOB))}
        ends: dict[str, datetime] = {}
        for done in db.execute(select(PRINT.c.job, PRINT.c.at).where(PRINT.c.outcome == "done")):
            ends[done.job] = max(done.at, ends.get(done.job, done.at))
        lags = [
            max(0.0, (row.handed_at - ends[code]).total_seconds() / 60.0)
            for code, row in states.items()
            if row.handed_at is not None and code in ends
        ]
        open_jobs = [code for code, row in states.items() if row.state in ("open", "fitted") and code in devices]
        return _Seen(
            begun=first,
            arrived=arrived,
            devices=devices,
            left={code: left.get(code, ()) for code in open_jobs},
            lags_min=tuple(lags),
            prints_n=len(db.execute(select(PRINT.c.event)).all()),
            hours=(windows, bool(last.get("unattended", False))),
            running={
                row.printer: row.end for row in db.execute(select(PLATE).where(PLATE.c.state == "running")) if row.end
            },
            printers=tuple(dict(row) for row in db.execute(select(PRINTER).order_by(PRINTER.c.name)).mappings()),
        )


def _plates(db: Connection) -> tuple[dict[str, tuple[float, ...]], dict[str, tuple[float, ...]]]:
    """Return by job the minutes of the plates of its device, and of those that are not begun.

    What a failed plate lost is planned again on others, so it is not one of them.
    """
    devices: dict[str, list[float]] = {}
    left: dict[str, list[float]] = {}
    for row in db.execute(select(PLATE).order_by(PLATE.c.id)):
        if row.state in ("planned", "running", "done"):
            devices.setdefault(row.job, []).append(row.duration_s / 60.0)
        if row.state == "planned":
            left.setdefault(row.job, []).append(row.duration_s / 60.0)
    return {job: tuple(own) for job, own in devices.items()}, {job: tuple(own) for job, own in left.items()}


def _benches(seen: _Seen, history: History, profiles: Mapping[str, Printer], now: datetime) -> tuple[Bench, ...]:
    """Return the printers that take plates: with their own hours, else with those of the last job that was told."""
    from planner.schedule import Bench, week_spans  # noqa: PLC0415  a second: an event need not wait for it

    rates = {row.name: row for row in history.rows if (row.what, row.by) == ("failure_per_hour", "printer")}
    found = []
    for row in seen.printers:
        own = read_windows(Table({"attended": list(row["attended"])}, "printer", LedgerError), "attended")
        hours, unattended = own or seen.hours[0], seen.hours[1]
        if row["blocked"] or not hours:
            continue
        name = row["name"]
        rate = rates[name].number if name in rates else profiles[name].failure_per_hour
        spread = (rate.high - rate.low) / FAILS_RATIO / rate.value if rate.value else 0.0
        free = max(seen.running.get(name, now), now)
        found.append(
            Bench(
                spans=week_spans(hours, now),
                unattended=unattended,
                free_min=(free - now).total_seconds() / 60.0,
                change_min=profiles[name].plate_change_s.value / 60.0,
                fails_per_hour=rate.value,
                fails_ratio=spread,
            )
        )
    return tuple(found)


def _months(now: datetime, months_n: int) -> tuple[tuple[datetime, datetime], ...]:
    """Return the rest of this month and the months after it, each by its begin and its end.

    >>> [(a.isoformat()[:10], b.isoformat()[:10]) for a, b in _months(datetime(2026, 12, 30, 12), 1)]
    [('2026-12-30', '2027-01-01'), ('2027-01-01', '2027-02-01')]
    """
    edges = [now]
    for step in range(1, months_n + 2):
        year, month = now.year + (now.month - 1 + step) // 12, (now.month - 1 + step) % 12 + 1
        edges.append(datetime.combine(now.replace(year=year, month=month, day=1), time()))
    return tuple(pairwise(edges))
