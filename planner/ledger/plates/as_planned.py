"""As planned: what the last plan of a job said, and what went wrong since: a new plan moves only what has to move."""

from __future__ import annotations

from typing import Any

from sqlalchemy import select
from sqlalchemy.engine import Engine

from planner.ledger.codes import job_and_number
from planner.ledger.plates.running import pieces_of
from planner.ledger.tables import EVENT, JOB, PERSON, PLATE, PRINT, PRINTER


def as_planned(engine: Engine, job: str) -> list[dict[str, Any]]:
    """Return the plates of a job as the last plan has them: those planned, with printer, start and pieces."""
    with engine.begin() as db:
        mine = (PLATE.c.job == job) & (PLATE.c.state == "planned")
        rows = [{**row, "pieces": pieces_of(db, row["id"])} for row in db.execute(select(PLATE).where(mine)).mappings()]
    return sorted(rows, key=lambda row: job_and_number(row["id"]))


def failures_since(engine: Engine) -> list[dict[str, Any]]:
    """Return the prints that failed since the chapter was planned last: plate, printer, cause."""
    with engine.begin() as db:
        plans = select(EVENT.c.id).where(EVENT.c.kind == "plates")
        last = max(db.execute(plans).scalars(), default=0)
        rows = select(PRINT).where(PRINT.c.outcome == "failed", PRINT.c.event > last).order_by(PRINT.c.event)
        return [{"plate": row.plate, "printer": row.printer, "cause": row.cause} for row in db.execute(rows)]


def gates_since(engine: Engine) -> dict[str, tuple[str, str]]:
    """Return by printer whether it was blocked since the last plan, and why, or measured, which opens it again.

    One that was blocked before and after is no news; nor is a coupon of one that took plates all the time.
    """
    with engine.begin() as db:
        plans = select(EVENT.c.id).where(EVENT.c.kind == "plates")
        last = max(db.execute(plans).scalars(), default=0)
        gates = select(EVENT.c.id, EVENT.c.kind, EVENT.c.subject, EVENT.c.body).where(
            EVENT.c.kind.in_(("blocked", "measured"))
        )
        before, after = dict[str, str](), dict[str, tuple[str, str]]()
        for row in db.execute(gates.order_by(EVENT.c.id)):
            if row.id > last:
                after[row.subject] = row.kind, str(row.body.get("why") or "")
            else:
                before[row.subject] = row.kind
        return {name: gate for name, gate in after.items() if gate[0] != before.get(name, "measured")}


def planned_jobs(engine: Engine) -> dict[str, str]:
    """Return by code the state of every job that was planned before."""
    with engine.begin() as db:
        codes = set(db.execute(select(PLATE.c.job)).scalars())
        return {row.code: row.state for row in db.execute(select(JOB)) if row.code in codes}


def staff(engine: Engine) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """Return the people by code, and the printers by name, as they were told last."""
    with engine.begin() as db:
        people = db.execute(select(PERSON).order_by(PERSON.c.code)).mappings()
        printers = db.execute(select(PRINTER).order_by(PRINTER.c.name)).mappings()
        return [dict(row) for row in people], [dict(row) for row in printers]
