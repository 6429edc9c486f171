"""As planned: what the last plan of a job said, and what went wrong since: a new plan moves only what has to move."""

from __future__ import annotations

from typing import Any

from sqlalchemy import select
from sqlalchemy.engine import Engine

from planner.ledger.codes import job_and_number
from planner.ledger.running import pieces_of
from planner.ledger.tables import EVENT, PLATE, PRINT


def as_planned(engine: Engine, job: str) -> list[dict[str, Any]]:
    """Return the plates of a job as the last plan has them: those planned, with printer, start and pieces."""
    with engine.begin() as db:
        mine = (PLATE.c.job == job) & (PLATE.c.state == "planned")
        rows = [{**row, "pieces": pieces_of(db, row["id"])} for row in db.execute(select(PLATE).where(mine)).mappings()]
    return sorted(rows, key=lambda row: job_and_number(row["id"]))


def failures_since(engine: Engine, job: str) -> list[dict[str, Any]]:
    """Return the prints that failed since a job was planned last: plate, printer, cause."""
    with engine.begin() as db:
        plans = select(EVENT.c.id).where(EVENT.c.kind == "plates", EVENT.c.subject == job)
        last = max(db.execute(plans).scalars(), default=0)
        rows = select(PRINT).where(PRINT.c.outcome == "failed", PRINT.c.event > last).order_by(PRINT.c.event)
        return [{"plate": row.plate, "printer": row.printer, "cause": row.cause} for row in db.execute(rows)]
