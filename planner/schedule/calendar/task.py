"""Records of the calendar's problem and its answer, in whole minutes from the plan's start."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from planner.schedule.calendar.weekly_spans import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One plate to run.

    Parameters
    ----------
    plate
        Its number.
    takes_min
        How long it takes on every printer that can run it.
    lost_min
        How long failures delay it on average on these printers; left out: nothing.
    rank
        On one printer no plate runs before those of a lower rank.
    after
        Plates whose bed must be cleared before this one starts.
    stay
        Plates with the same word stay on one printer; empty: any.
    ends
        Of pieces printed one after another: the share of the run at which the bed is hot, then each piece's end.
    watched
        Whether somebody has to be there all through it, because a spool ends in it.
    not_before_min
        It starts no sooner: of several jobs on one calendar each has its own begin.
    """

    plate: int
    takes_min: Mapping[str, int]
    lost_min: Mapping[str, int] = field(default_factory=dict)
    rank: int = 0
    ends: tuple[float, ...] = ()
    after: tuple[int, ...] = ()
    stay: str = ""
    watched: bool = False
    not_before_min: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """Where and when plates may run.

    A plate is started, and its bed cleared for ``change_min`` of its printer, while somebody is there; at most
    ``people_n`` beds are cleared at once. Unless ``unattended``, a plate also runs inside one attended span. No
    plate runs in a quiet span.
    """

    change_min: Mapping[str, int]
    attended: tuple[Span, ...]
    quiet: tuple[Span, ...] = ()
    unattended: bool = False
    people_n: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A plate on a printer: it runs from ``start`` to ``end``, its bed is cleared from ``clear`` to ``free``."""

    plate: int
    printer: str
    start: int
    end: int
    clear: int
    free: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """A calendar: ``finish`` is the last end, each with what failures cost there; no calendar beats ``bound``."""

    placed: tuple[Placed, ...]
    finish: int
    bound: int

    @property
    def gap_percent(self) -> float:
        """How far the finish may be from the best possible."""
        return 100.0 * (self.finish - self.bound) / max(self.bound, 1)


def finish_of(placed: Iterable[Placed], tasks: Mapping[int, Task]) -> int:
    """Return the last end, each with the minutes that failures are expected to cost on its printer."""
    return max((run.end + tasks[run.plate].lost_min.get(run.printer, 0) for run in placed), default=0)
