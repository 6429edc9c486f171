"""The chapter's printers, as the ledger has them: each with its profile, hours, nozzle, and coupons that run out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from planner.cli.ledger.history.as_learned import as_learned
from planner.errors import LedgerError
from planner.job import Attended, Job, Printer, Table, printers_of, read_printer, read_windows, why_not
from planner.ledger import History
from planner.phrases import listed
from planner.rules import chosen_material
from planner.sourced import stated

Row = dict[str, Any]
SAME_MM = 1e-6
"""Nozzles closer than this are one size."""


def with_printers(
    job: Job,
    rows: Sequence[Row],
    folder: Path,
    today: date,
    coupons: Sequence[Row] = (),
    history: History | None = None,
    *,
    stand_in: bool = True,
) -> Job:
    """Return a job that is printed on the chapter's printers; on its own where the chapter has none like it.

    A job that names more than one printer keeps to those. Each has the nozzle that is in it now. A printer without a
    valid coupon for its nozzle and the job's material counts as one that nobody has measured, whatever others have.
    One that is blocked takes no plates; where all of its own kind are, another that can print the job stands in. Where
    none can, or ``stand_in`` is false, the job keeps its own alone, and whoever plans asks ``blocked_of``. ``history``
    tells the numbers that the ledger has learned of each.
    """
    known = {row["name"]: (row, read_printer(row["profile"], folder.resolve())) for row in rows}
    named = {printer.name for printer in printers_of(job)}
    valid = {name: _valid(job, row, _nozzled(row, printer), today, coupons) for name, (row, printer) in known.items()}

    def own_of(name: str, printer: Printer) -> Printer:
        """Return a printer under its name, as far as it was measured."""
        mine = replace(printer, name=name, calibrated=printer.calibrated and valid[name])
        return as_learned(mine, name, _material(job), history, valid=valid[name])

    every = [own_of(name, _nozzled(row, printer)) for name, (row, printer) in known.items()]
    if job.more_printers:
        every = [
            p for p, (row, profile) in zip(every, known.values(), strict=True) if named & {row["name"], profile.name}
        ]
    blocked = {row["name"]: row["blocked"] for row in rows if row.get("blocked")}
    nozzle_mm = job.printer.nozzle_mm.value
    own = [p for p in every if job.printer.name in (p.name, known[p.name][1].name)]
    own.sort(key=lambda p: abs(p.nozzle_mm.value - nozzle_mm) > SAME_MM)  # the settings are for that nozzle
    if not own:
        return job
    free = [p for p in own if p.name not in blocked]
    # where none has that nozzle, the rules say so
    first = own_of((free or own)[0].name, _nozzled(known[(free or own)[0].name][0], job.printer))
    others = tuple(p for p in every if p.name not in blocked and p.name != first.name)
    job = replace(job, printer=first, more_printers=others)
    if free:
        return job
    able = _standing_in(job) if stand_in else []
    return replace(job, printer=able[0] if able else first, more_printers=tuple(able[1:]))


def _standing_in(job: Job) -> list[Printer]:
    """Return the other printers that can print a job as it is: in its material, with its settings."""
    material = chosen_material(job)
    if material is None:
        return []
    others = (p for p in job.more_printers if not why_not(job, material, p))
    return [p for p in others if _material(replace(job, printer=p)) == material.name]


class AllBlockedError(LedgerError):
    """Nothing that a job may be printed on takes plates: it waits, and nothing is wrong with what was written."""


def blocked_of(job: Job, rows: Sequence[Row], but: str = "") -> AllBlockedError | None:
    """Return what is said where all printers of a job wait for their coupons; None where one takes plates.

    ``but`` says why no other can stand in, where one was tried.
    """
    why = {row["name"]: row["blocked"] for row in rows if row.get("blocked")}
    mine = [printer.name for printer in printers_of(job)]
    if not all(name in why for name in mine):
        return None
    told = listed(f"{name} ({why[name]})" for name in mine)
    wrong = f"its printers wait until their coupons are measured: {told}{f'; {but}' if but else ''}"
    todo = f"print and measure the coupon, then: fitwright measured {mine[0]} --readings FILE --until DAY"
    return AllBlockedError(where=job.recipient or job.name, wrong=wrong, todo=todo)


def _nozzled(row: Row, printer: Printer) -> Printer:
    """Return a printer with the nozzle that is in it now; left out: the one of its profile."""
    now_mm = row.get("nozzle_mm")
    if now_mm is None or abs(now_mm - printer.nozzle_mm.value) <= SAME_MM:
        return printer
    return replace(printer, nozzle_mm=stated(now_mm, "the chapter's ledger"))


def _valid(job: Job, row: Row, printer: Printer, today: date, coupons: Sequence[Row]) -> bool:
    """Return whether a printer's coupon is valid for its nozzle and the job's material.

    Where the ledger knows no coupon of the printer, the day in its own row counts for all; without one it is valid.
    """
    mine = [coupon for coupon in coupons if coupon["printer"] == row["name"]]
    if not mine:
        until = row["calibrated_until"]
        return until is None or today.isoformat() <= str(until)
    material = _material(job)
    return any(
        coupon["material"] == material
        and abs(coupon["nozzle_mm"] - printer.nozzle_mm.value) <= SAME_MM
        and today.isoformat() <= coupon["until"]
        for coupon in mine
    )


def _material(job: Job) -> str:
    """Return the name of the material that a job is printed in; empty where there is none to choose from."""
    material = chosen_material(job)
    return material.name if material else ""


def ran_out(job: Job, rows: Sequence[Row], today: date, coupons: Sequence[Row]) -> bool:
    """Return whether the job's own printer has no valid coupon any more; those of other printers are their own."""
    mine = [row for row in rows if row["name"] == job.printer.name]
    return any(not _valid(job, row, job.printer, today, coupons) for row in mine)


def windows_told(texts: Sequence[str]) -> tuple[Attended, ...]:
    """Return a printer's own hours."""
    return read_windows(Table({"attended": list(texts)}, "printer", LedgerError), "attended")
