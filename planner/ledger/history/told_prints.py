"""Told prints: what each print that is over says about its printer, its material and its lot."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.engine import Engine

from planner.ledger.tables import FED, PLATE, PRINT

FAR = 20.0
"""A ratio beyond this, or under its inverse, is a slip of the unit: it teaches nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldPrint:
    """One print that is over; ratios are real over bare planned, None where nobody told hours or grams."""

    at: datetime
    printer: str
    material: str
    lot: str
    """Empty where it is not known, or where spools of several lots fed it."""
    failed: bool
    ran_h: float
    time_ratio: float | None
    mass_ratio: float | None


def told_prints(engine: Engine) -> tuple[ToldPrint, ...]:
    """Return every print that is over, in the order in which they ended."""
    with engine.begin() as db:
        lots: dict[int, set[str]] = {}
        for row in db.execute(select(FED.c.event, FED.c.lot)):
            lots.setdefault(row.event, set()).add(row.lot)
        rows = db.execute(
            select(
                PRINT, PLATE.c.material, PLATE.c.duration_s, PLATE.c.mass_g, PLATE.c.time_ratio, PLATE.c.mass_ratio
            ).join(PLATE, PLATE.c.id == PRINT.c.plate)
        ).all()
    found = [
        ToldPrint(
            at=row.at,
            printer=row.printer,
            material=row.material,
            lot=next(iter(lots[row.event])) if len(lots.get(row.event, ())) == 1 else "",
            failed=row.outcome == "failed",
            ran_h=row.ran_s / 3600.0,
            time_ratio=_ratio(row.took_s, row.duration_s, row.time_ratio),
            mass_ratio=None if row.outcome == "failed" else _ratio(row.weighed_g, row.mass_g, row.mass_ratio),
        )
        for row in rows
    ]
    return tuple(sorted(found, key=lambda one: one.at))


def _ratio(real: float | None, planned: float | None, within: float | None) -> float | None:
    """Return real over planned, where the plan's own ratio is taken out again; None where that cannot be told."""
    if not real or not planned:
        return None
    ratio = real / (planned / (within or 1.0))
    return ratio if 1.0 / FAR < ratio < FAR else None
