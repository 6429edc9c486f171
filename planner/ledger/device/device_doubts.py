"""What the ledger knows that speaks against a device being there: pieces, tests and bought things that are missing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from sqlalchemy import select
from sqlalchemy.engine import Connection

from planner.ledger.device.device_log import spoilt_pieces, untested
from planner.ledger.device_items import items_to_take, last_told
from planner.ledger.tables import DEVICE_PART, ITEM, PLACEMENT, PLATE, PRINT
from planner.phrases import listed

MOST_N = 4
"""So many things are named; the rest is counted."""


def about_device(db: Connection, job: str) -> Iterator[str]:
    """Yield why a device should not be there yet: what of it is not printed, was lost, or was never bought."""
    rows = db.execute(select(PLATE.c.id, PLATE.c.state).where(PLATE.c.job == job).order_by(PLATE.c.id)).all()
    for state, said in (("planned", "not printed"), ("running", "still running")):
        ids = [row.id for row in rows if row.state == state]
        if ids:
            yield f"{listed(ids, most_n=MOST_N)} {'is' if len(ids) == 1 else 'are'} {said}"
    yield from _missing_pieces(db, job, [row.id for row in rows if row.state in ("planned", "running")])
    yield from _short_items(db, job)
    yield from untested(db, job)


def _missing_pieces(db: Connection, job: str, to_come: list[str]) -> Iterator[str]:
    """Yield the pieces that no print brought whole and no plate is to bring, and on which plates they were lost."""
    need = Counter({row.part: row.n for row in db.execute(select(DEVICE_PART).where(DEVICE_PART.c.job == job))})
    laid = select(PLACEMENT.c.plate, PLACEMENT.c.part, PLACEMENT.c.n, PLACEMENT.c.made_as)
    made, on_plates = last_told(db, job).get("made", {}), dict[str, list[Any]]()
    for row in db.execute(laid.join(PLATE, PLATE.c.id == PLACEMENT.c.plate).where(PLATE.c.job == job)):
        on_plates.setdefault(row.plate, []).append(row)
    have, other, lost_on = Counter[str](), Counter[str](), dict[str, list[str]]()
    for plate in to_come:
        have.update({row.part: row.n for row in on_plates.get(plate, ())})
    for told in db.execute(select(PRINT).where(PRINT.c.job == job).order_by(PRINT.c.event)):
        for row in on_plates.get(told.plate, ()):
            good = told.good.get(row.part, 0)
            (have if made.get(row.part, row.made_as) == row.made_as else other)[row.part] += good
            if good < row.n:
                lost_on.setdefault(row.part, []).append(told.plate)
    spoilt = spoilt_pieces(db, job, made)
    have.subtract(spoilt)
    missing = need - have
    if missing:
        words = []
        for part, n in sorted(missing.items()):
            plates = lost_on.get(part)
            whys = [f"lost on {listed(plates, most_n=MOST_N)}"] if plates else []
            whys += ["spoilt since"] if spoilt[part] else []
            whys += ["printed from another mesh or size"] if other[part] and not whys else []
            words.append(f"{part} x {n}{f' ({listed(whys)})' if whys else ''}")
        yield f"no plate brings {listed(words, most_n=MOST_N)}"


def _short_items(db: Connection, job: str) -> Iterator[str]:
    """Yield the hardware, cords and straps that the stock has too few of; where no stock is kept nobody can say."""
    stock = {row.name: row.n for row in db.execute(select(ITEM))}
    short = [row for row in items_to_take(db, job) if row["n"] > stock.get(row["item"], 0.0) + 1e-6]  # sums of floats
    if stock and short:
        there = {row["item"]: stock.get(row["item"], 0.0) for row in short}
        words = [f"{row['n']:g} {row['unit']} of {row['item']} ({there[row['item']]:g} there)" for row in short]
        yield f"it takes {listed(words, most_n=MOST_N)}, more than the stock has"
