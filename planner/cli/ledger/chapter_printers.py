"""The chapter's printers, as the ledger has them: each with its profile, its own hours, and a coupon that runs out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from planner.errors import LedgerError
from planner.job import Attended, Job, Printer, Table, printers_of, read_printer, read_windows
from planner.ledger import staff

if TYPE_CHECKING:
    from sqlalchemy.engine import Engine


def with_printers(job: Job, rows: Sequence[dict[str, Any]], folder: Path, today: date) -> Job:
    """Return a job that is printed on the chapter's printers; on its own where the chapter has none like it.

    A job that names more than one printer keeps to those. A printer whose coupon is no longer valid counts as one
    that nobody has measured.
    """
    known = {row["name"]: (row, read_printer(row["profile"], folder.resolve())) for row in rows}
    named = {printer.name for printer in printers_of(job)}
    every = [_today(row, printer, today) for row, printer in known.values()]
    if job.more_printers:
        every = [
            p for p, (row, profile) in zip(every, known.values(), strict=True) if named & {row["name"], profile.name}
        ]
    own = [p for p in every if job.printer.name in (p.name, known[p.name][1].name)]
    if not own:
        return job
    first = replace(
        job.printer, name=own[0].name, calibrated=job.printer.calibrated and _valid(known[own[0].name][0], today)
    )
    return replace(job, printer=first, more_printers=tuple(p for p in every if p.name != first.name))


def _today(row: dict[str, Any], printer: Printer, today: date) -> Printer:
    """Return a printer under its name in the chapter, measured only while its coupon is valid."""
    return replace(printer, name=row["name"], calibrated=printer.calibrated and _valid(row, today))


def _valid(row: dict[str, Any], today: date) -> bool:
    """Return whether a printer's coupon is still valid; one without a day is."""
    until = row["calibrated_until"]
    return until is None or today.isoformat() <= str(until)


def stale(engine: Engine, today: date) -> bool:
    """Return whether the coupon of some printer is no longer valid."""
    untils = [row["calibrated_until"] for row in staff(engine)[1]]
    return any(until is not None and today.isoformat() > until for until in untils)


def windows_told(texts: Sequence[str]) -> tuple[Attended, ...]:
    """Return a printer's own hours."""
    return read_windows(Table({"attended": list(texts)}, "printer", LedgerError), "attended")
