"""A chapter planned at the desk: one plan at a time in the background, as the command would make it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from threading import Lock, Thread
from typing import Any

from planner.desk.events.chapter_events import ChapterEvents
from planner.errors import CommandError, FitwrightError
from planner.ledger import Event
from planner.output import buy_lines, change_lines, late_lines, limit_lines

Json = dict[str, Any]
Report = Callable[[str, float], None]
ROW = ("verdict", "recipient", "job", "plates", "ready", "deadline")


@dataclass(frozen=True, slots=True, kw_only=True)
class ChapterWork:
    """What a desk is given to plan with: the work of ``fitwright chapter`` and of ``fitwright ledger``.

    ``plan`` plans the chapter in a folder into the folder ``chapter`` there, and returns its sums; ``fill`` makes the
    ledger that the chapter's file names, or tells it what is new in the file, and says what it did.
    """

    plan: Callable[[Path, Report], Json]
    fill: Callable[[Path], str]


@dataclass(kw_only=True, eq=False)  # not frozen: Python writes __traceback__ on it
class PlannedSinceError(CommandError):
    """Somebody planned the chapter since a page was loaded: ``since`` is what their plan told the ledger."""

    since: tuple[Event, ...]


class ChapterPlanning:
    """Plans a desk's chapter, and says how far it is."""

    def __init__(self, events: ChapterEvents, work: ChapterWork | None) -> None:
        self._events, self._work = events, work
        self._lock = Lock()
        self._state: Json = {"state": "idle"}

    def fill(self) -> str:
        """Make the ledger or tell it what is new in the chapter's file; return what was done, in a sentence."""
        self._events.there()  # refuses one outside of the folder
        return self._given().fill(self._events.folder.path)

    def start(self, seen: int | None) -> Json:
        """Begin to plan.

        Raises
        ------
        PlannedSinceError
            Where somebody has planned the chapter after the line ``seen``.
        CommandError
            Where a plan is being made already, or nothing can plan here.
        """
        work = self._given()
        if self._events.there() and seen is not None:
            since = tuple(event for event in self._events.since(seen) if event.kind == "plates")
            if since:
                wrong, todo = "it was planned since you loaded the page", "look at that plan, or plan it all the same"
                raise PlannedSinceError(where="chapter", wrong=wrong, todo=todo, since=since)
        with self._lock:
            if self._state["state"] == "working":
                raise CommandError(where="chapter", wrong="it is being planned", todo="wait until that is done")
            self._state = {"state": "working", "what": "starting"}
        Thread(target=self._planned, args=(work,), daemon=True).start()
        return self.progress()

    def progress(self) -> Json:
        """Return what the plan is at, or what came out of it."""
        return dict(self._state)

    def _planned(self, work: ChapterWork) -> None:
        """Make the plan; whatever happens is told to the page."""

        def report(what: str, _: float) -> None:
            self._state = {"state": "working", "what": what}

        try:
            sums = work.plan(self._events.folder.path, report)
            self._state = {"state": "done", **shown_of(sums)}
        except FitwrightError as error:
            self._state = {"state": "failed", "why": str(error)}
        except Exception as error:  # noqa: BLE001  the page must hear of it, whatever it was
            why = f"the plan ended unexpectedly ({type(error).__name__}: {error})"
            self._state = {"state": "failed", "why": why}

    def _given(self) -> ChapterWork:
        """Return what there is to plan with."""
        if self._work is None:
            raise CommandError(where="chapter", wrong="this desk plans no chapter", todo="run fitwright chapter .")
        return self._work


def shown_of(sums: Json) -> Json:
    """Return what the page shows of a chapter's sums: a row for each job, and sentences as the command tells them."""
    return {
        "verdict": sums["verdict"],
        "jobs": [{key: row[key] for key in ROW} for row in sums["jobs"]],
        "late": late_lines(sums),
        "limits": limit_lines(sums),
        "changes": change_lines(sums),
        "unread": [f"{row['path']}: {row['why']}" for row in sums["unread"]],
        "buy": buy_lines(sums),
    }
