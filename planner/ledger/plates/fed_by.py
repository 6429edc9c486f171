"""Fed by: the spools that a print took its grams from, where one ran empty and another went on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import select
from sqlalchemy.engine import Connection

from planner.errors import LedgerError
from planner.ledger.plates.running import known_spool
from planner.ledger.tables import SPOOL

Row = dict[str, Any]
SAME_G = 0.05
"""Grams are told to a tenth."""


def fed_by(db: Connection, plate: str, rows: Sequence[Row], total_g: float | None, *, weighed: bool) -> list[Row]:
    """Return every spool with the grams that it gave, in the order in which they were told.

    One whose grams nobody told gave all that it had; the last such one gave the rest of ``total_g``.

    Raises
    ------
    LedgerError
        Where a spool is not known or told twice, the grams cannot be shared out, or do not add up to what was weighed.
    """
    names = [row["spool"] for row in rows]
    for name in names:
        known_spool(db, name)
        if names.count(name) > 1:
            raise LedgerError(where="--spool", wrong=f"{name} is told twice", todo="tell each spool once")
    open_n = sum(row.get("used_g") is None for row in rows)
    if not open_n:
        sum_g = sum(row["used_g"] for row in rows)
        if weighed and total_g is not None and abs(sum_g - total_g) > SAME_G:
            wrong = f"the spools gave {sum_g:.1f} g, and --grams says {total_g:.1f} g"
            raise LedgerError(where=plate, wrong=wrong, todo="correct one of them, or leave out --grams")
        return [{"spool": row["spool"], "used_g": row["used_g"]} for row in rows]
    if total_g is None:
        wrong = "nobody knows how much it took in all"
        raise LedgerError(where=plate, wrong=wrong, todo="add --grams, or every spool's grams, as --spool S-1:30")
    fed = list[Row]()
    for row in rows:
        used_g, last = row.get("used_g"), False
        if used_g is None:
            open_n -= 1
            last = open_n == 0
            used_g = None if last else _all_of(db, row["spool"])
        fed.append({"spool": row["spool"], "used_g": used_g})
    rest_g = total_g - sum(row["used_g"] or 0.0 for row in fed)
    if rest_g < -SAME_G:
        wrong = f"the other spools gave {total_g - rest_g:.1f} g already, and it took {total_g:.1f} g in all"
        raise LedgerError(where=plate, wrong=wrong, todo="tell every spool's grams, as --spool S-1:30")
    return [{**row, "used_g": max(0.0, rest_g) if row["used_g"] is None else row["used_g"]} for row in fed]


def _all_of(db: Connection, name: str) -> float:
    """Return all that a spool has left.

    Raises
    ------
    LedgerError
        Where nobody knows.
    """
    left_g = db.execute(select(SPOOL.c.left_g).where(SPOOL.c.id == name)).scalar()
    if left_g is None:
        wrong = f"nobody knows what {name} had left"
        raise LedgerError(where="--spool", wrong=wrong, todo=f"tell what it gave, as --spool {name}:30")
    return float(left_g)
