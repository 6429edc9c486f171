"""A failed plate of a chapter: what to do with it, told to the ledger, and the job planned again from there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any
from uuid import uuid4

from planner.cli.ledger.chapter_state import ChapterState
from planner.cli.ledger.kept_rows import stood_of
from planner.cli.ledger.ledger_options import chapter_files, moment_of
from planner.errors import LedgerError, nearest
from planner.job import Job
from planner.ledger import Event, as_planned, ledger_beside, opened, plate_id, told, under_way
from planner.packing import counted
from planner.plan import AfterFailure, Failure, Plan, after_failure

if TYPE_CHECKING:
    from planner.plan import Standing

MakePlan = Callable[[Job], Plan]


def state_beside(named: str, job: Path) -> ChapterState | None:
    """Return the ledger that is named, or that the chapter's file beside the job's folder names; None for none."""
    files = chapter_files(job)
    where = named or next((found for path in files if (found := ledger_beside(path))), "")
    if not where:
        return None
    return ChapterState(engine=opened(where), now=moment_of(""), folder=files[0].parent if files else Path())


def failed_in(
    state: ChapterState, job: Job, failure: Failure, make: MakePlan, said: Mapping[str, Any] | None = None
) -> tuple[AfterFailure, Event | None]:
    """Return what to do with a failed plate and the plan of what is left, and the event that the ledger was told.

    The plate's number is that of its id. One that is to finish runs on: the ledger is told that it runs, and that it
    failed once it is off the bed. ``said`` is what a person adds: spools that fed it, and that it is so all the same.

    Raises
    ------
    LedgerError
        Where the ledger has no such plate that is planned or runs, or knows what speaks against it, or where all
        printers of the job are blocked: then it is told by ``fitwright failed PLATE``.
    """
    name = plate_id(job.recipient, failure.plate)
    today = make(state.job_now(job))
    state.refuse_blocked(job, today)
    plan, number = _with_failed(state, today, name)
    after = replace(after_failure(plan, replace(failure, plate=number)), done=())
    pieces = counted(next(plate for plate in plan.plates if plate.number == number).placements)
    runs = name in {row["id"] for row in under_way(state.engine)}
    event = None
    if after.mishap.does == "stop":
        lost = {} if after.again == pieces else {"lost": dict(after.again)}
        event = _event("failed", name, state.now, cause=failure.cause, ran_s=failure.at_s, **lost, **(said or {}))
    elif not runs:
        event = _event("started", name, state.now, **_begun_with(said or {}))
    kept = told(state.engine, [event], state.now)[0] if event else None
    again = make(state.job_now(job))
    return replace(after, left=state.left(again, state.standing(again))), kept


def _begun_with(said: Mapping[str, Any]) -> dict[str, Any]:
    """Return what is said of a plate that begins: the first of its spools; what it took is told when it is over."""
    first = said.get("spool") or next((row["spool"] for row in said.get("fed", ())), "")
    kept = {key: value for key, value in said.items() if key == "even_so"}
    return {**kept, **({"spool": first} if first else {})}


def _event(kind: str, name: str, at: datetime, **body: Any) -> Event:
    """Return an event about a plate."""
    return Event(key=uuid4().hex, at=at, kind=kind, subject=name, body=body)


def _with_failed(state: ChapterState, plan: Plan, name: str) -> tuple[Plan, int]:
    """Return the plan of what is left with the plate that fails among its plates, and the plate's number there."""
    rows = [*as_planned(state.engine, plan.job.recipient), *under_way(state.engine)]
    row = next((each for each in rows if each["id"] == name), None)
    if row is None:
        todo = nearest(name, [each["id"] for each in rows]) if rows else "plan first: fitwright chapter JOBS"
        raise LedgerError(where=name, wrong="no such plate is planned or runs", todo=todo)
    standing: Standing = state.standing(plan)
    asked = stood_of(row)
    others = tuple(each for each in standing.stood if each != asked)
    left = state.left(plan, replace(standing, stood=(asked, *others)), but=name)
    same = [plate for plate in left.plates if counted(plate.placements) == asked.pieces]
    if not same:
        wrong = "its pieces are others now: meshes or size were changed since it was planned"
        raise LedgerError(where=name, wrong=wrong, todo=f"tell it by hand: fitwright failed {name} --lost PIECES")
    return left, same[0].number


def event_json(event: Event | None) -> dict[str, object] | None:
    """Return what the ledger was told, as plain JSON types; null for nothing."""
    return None if event is None else {"kind": event.kind, "plate": event.subject, **event.body}


def event_words(event: Event | None, job: Job, failure: Failure) -> str:
    """Say what the ledger was told, and what it is to be told yet."""
    name = plate_id(job.recipient, failure.plate)
    if event is not None and event.kind == "failed":
        return f"ledger: {name} failed; what it lost is planned again below"
    lost = " ".join(f"{part}:{n}" for part, n in failure.lost.items())
    told_lost = f" --lost '{lost}'" if lost else ""
    return (
        f"ledger: {name} runs on. When it is off the bed, tell what is lost:\n"
        f"  fitwright failed {name} --cause {failure.cause}{told_lost}"
    )
