"""``ledger LEDGER learned``: what the ledger's own history teaches, for people and as JSON."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from planner.cli.ledger.history.as_learned import LEAST_N, profiles_of
from planner.ledger import History, Learned, ToldDrift, learned

if TYPE_CHECKING:
    from rich.console import Console
    from sqlalchemy.engine import Engine

Row = dict[str, Any]
WORDS = {
    "time_ratio": "hours over plan",
    "mass_ratio": "grams over plan",
    "failure_per_hour": "failures an hour",
    "upright_mm": "upright bores smaller by, mm",
    "lying_mm": "horizontal bores smaller by, mm",
    "least_gap_mm": "least open gap, mm",
}
DIGITS = {"failure_per_hour": 4}
"""Others are told to hundredths."""


def learned_rows(engine: Engine, folder: Path) -> tuple[History, Row]:
    """Return what is learned, and the same as plain JSON types; profiles of printers are read from a folder."""
    history = learned(engine, profiles_of(engine, folder))
    return history, {
        "learned": [_json(row) for row in history.rows],
        "drifts": [_drift_json(drift) for drift in history.drifts],
        "missing": list(history.missing),
    }


def _json(row: Learned) -> Row:
    """Return a number that was learned."""
    return {
        "what": row.what,
        "by": row.by,
        "name": row.name,
        "material": row.material or None,
        "nozzle_mm": row.nozzle_mm,
        "n": row.told_n,
        "own": row.own.value if row.own else None,
        "value": row.number.value,
        "low": row.number.low,
        "high": row.number.high,
        "source": row.number.source,
    }


def _drift_json(drift: ToldDrift) -> Row:
    """Return a drift."""
    low, middle, high = drift.change
    return {
        "printer": drift.printer,
        "material": drift.material or None,
        "what": drift.what,
        "since": drift.since.isoformat(),
        "before": drift.before[0],
        "after": drift.after[0],
        "change": {"value": middle, "low": low, "high": high},
        "text": drift.text,
    }


def show_learned(console: Console, history: History) -> None:
    """Print a table for each number, then the drifts, then what nobody told."""
    from planner.output import row_table

    for what, words in WORDS.items():
        rows = [row for row in history.rows if row.what == what and (row.by == "printer" or row.told_n)]
        if rows:
            console.print(row_table(words, [_shown(row) for row in rows]))
            console.print()
    for drift in history.drifts:
        console.print(f"drift: {drift.text}", markup=False, soft_wrap=True)
    for text in history.missing:
        console.print(f"not known: {text}", markup=False, soft_wrap=True)
    if history.rows:
        ranges = "Ranges hold in 90 of 100 cases; what has few prints of its own borrows from the others."
        used = f"A chapter's plan uses what stands here by printer, once {LEAST_N} prints told it, offsets once its own"
        console.print(f"{ranges} {used} coupon did.", markup=False, soft_wrap=True)


def _shown(row: Learned) -> Row:
    """Return a row for a terminal."""
    digits = DIGITS.get(row.what, 2)
    held_for = f" ({row.material + ', ' if row.material else ''}nozzle {row.nozzle_mm:g} mm)" if row.nozzle_mm else ""
    return {
        "by": row.by,
        "of": f"{row.name}{held_for}",
        "told": row.told_n,
        "alone": f"{row.own.value:.{digits}f}" if row.own else "-",
        "pooled": f"{row.number.value:.{digits}f}",
        "90 %": f"{row.number.low:.{digits}f} to {row.number.high:.{digits}f}",
    }
