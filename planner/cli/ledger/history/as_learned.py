"""Printers as the chapter's ledger has learned to know them: their own numbers in the place of their profile's."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from planner.job import Calibration, Printer, read_printer
from planner.ledger import History, Learned, learned, staff
from planner.sourced import Sourced

if TYPE_CHECKING:
    from sqlalchemy.engine import Engine

LEAST_N = 5
"""Before five prints of a chapter tell a number, what its profiles say stands; common practice, no source."""
SAME_MM = 1e-6
"""Nozzles closer than this are one size."""


@lru_cache(maxsize=4)
def history_of(engine: Engine, folder: Path, now: datetime) -> History:  # noqa: ARG001  what was learned holds till then
    """Return what a ledger's history teaches by a moment; the profiles of its printers are read from a folder."""
    return learned(engine, profiles_of(engine, folder))


def profiles_of(engine: Engine, folder: Path) -> dict[str, Printer]:
    """Return by name the profile of every printer of a chapter."""
    return {row["name"]: read_printer(row["profile"], folder.resolve()) for row in staff(engine)[1]}


def as_learned(printer: Printer, name: str, material: str, history: History | None, *, valid: bool) -> Printer:
    """Return a printer with its own numbers, where the ledger knows them.

    Hours, grams and failures count once five prints of the chapter told them; a printer with few of its own borrows
    from the others, but one whose profile was measured from a log of its own keeps that until it has five. Offsets and
    the least gap count where this printer's own coupon for the material and its nozzle is told with its readings and
    ``valid``: then it is calibrated. Of the gap it is the upper end that counts, as a smaller one may fuse.
    """
    if history is None:
        return printer
    by_printer = [row for row in history.rows if row.by == "printer"]
    told_n = {what: sum(row.told_n for row in by_printer if row.what == what) for what in ("time_ratio", "mass_ratio")}
    told_n["failure_per_hour"] = sum(row.told_n for row in by_printer if row.what == "failure_per_hour")
    mine = {row.what: row for row in by_printer if row.name == name and row.nozzle_mm is None}
    changes: dict[str, Any] = {}
    for what, row in mine.items():
        before: Sourced | None = getattr(printer, what)
        kept = before is not None and before.kind == "measured" and row.told_n < LEAST_N
        if told_n[what] >= LEAST_N and not kept:
            changes[what] = _next(row)
    own = _coupons(by_printer, name, material, printer) if valid else {}
    made = replace(printer, **changes)
    last = max((row.last for row in own.values() if row.last is not None), default=None)
    if last is None or not own:
        return made
    offsets: dict[str, Any] = {what: own[what].number for what in ("upright_mm", "lying_mm") if what in own}
    gap = own.get("least_gap_mm")
    return replace(
        made,
        undersize=replace(made.undersize, **offsets),
        least_gap_mm=made.least_gap_mm if gap is None else replace(gap.number, value=gap.number.high),
        calibrated=True,
        calibrated_for=Calibration(material=material, nozzle_mm=printer.nozzle_mm.value, taken=last),
    )


def _coupons(rows: Sequence[Learned], name: str, material: str, printer: Printer) -> Mapping[str, Learned]:
    """Return what a printer's own coupons of a material and its nozzle told, by what it is."""
    return {
        row.what: row
        for row in rows
        if row.nozzle_mm is not None
        and row.told_n
        and (row.name, row.material) == (name, material)
        and abs(row.nozzle_mm - printer.nozzle_mm.value) <= SAME_MM
    }


def _next(row: Learned) -> Sourced:
    """Return what the next plate is planned with: its likely range where there is one, else the number's interval."""
    if row.likely is None:
        return row.number
    low, high = row.likely
    return replace(row.number, low=min(low, row.number.value), high=max(high, row.number.value))
