"""Records of the schedule's problem and its answer, in whole minutes from the schedule's start."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from planner.schedule.calendar.weekly_spans import Span

Key = tuple[int, int]
"""A plate of a schedule: the number of its job, then its number within the job."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One plate to run.

    Parameters
    ----------
    plate
        Its number within the job.
    takes_min
        How long it takes on every printer that can run it.
    job
        The number of its job; a schedule of one job has only job 0.
    lost_min
        How long failures delay it on average on these printers; left out: nothing.
    rank
        What shops like to print first has a low rank. It breaks ties and never costs a minute.
    after
        Plates of the same job whose beds must be cleared before this one starts.
    stay
        Plates of a job with the same word stay on one printer; empty: any.
    ends
        Of pieces printed one after another: the share of the run at which the bed is hot, then each piece's end.
    watched
        Whether somebody has to be there all through it, because a spool ends in it.
    not_before_min
        It starts no sooner, because its job begins then.
    stood
        The minute at which the last plan starts it, and the printer: it stays there if it can; None: it is new.
    reel
        The key of the colour that it is printed in, where spools of it are counted: see ``Shop.reels_n``.
    cleared_by_min
        Its bed has to be cleared by then; None: at any time.
    """

    plate: int
    takes_min: Mapping[str, int]
    job: int = 0
    lost_min: Mapping[str, int] = field(default_factory=dict)
    rank: int = 0
    ends: tuple[float, ...] = ()
    after: tuple[int, ...] = ()
    stay: str = ""
    watched: bool = False
    not_before_min: int = 0
    cleared_by_min: int | None = None
    stood: tuple[int, str] | None = None
    reel: str = ""

    @property
    def key(self) -> Key:
        """Its job and its number there."""
        return self.job, self.plate

    @property
    def after_keys(self) -> tuple[Key, ...]:
        """The plates that it waits for."""
        return tuple((self.job, plate) for plate in self.after)

    @property
    def shortest_min(self) -> int:
        """How long it takes on the fastest printer."""
        return min(self.takes_min.values(), default=0)


MOVES_A_DAY = 10
"""Where a chapter does not say how many plates may move for a day late less; our choice, no source."""


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
    free_from_min: Mapping[str, int] = field(default_factory=dict)
    """From when on a printer takes plates; left out: at once."""
    cleared: tuple[Span, ...] = ()
    """When hands clear beds of plates that run already."""
    reels_n: Mapping[str, int] = field(default_factory=dict)
    """How many spools of a colour there are: so many plates of it run at once at most."""
    hours: Mapping[str, tuple[Span, ...]] = field(default_factory=dict)
    """When somebody is there for one printer, where that is not always when the place is attended."""
    moves_a_day: int = MOVES_A_DAY
    """Plates of a plan that is changed that may move for each day late that this saves."""

    def there(self, printer: str) -> tuple[Span, ...]:
        """When somebody is there for a printer."""
        return self.hours.get(printer, self.attended)


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintRun:
    """A plate on a printer, in minutes: it runs from start to end, its bed is cleared from clear to free."""

    plate: int
    printer: str
    start_min: int
    end_min: int
    clear_min: int
    free_min: int
    job: int = 0

    @property
    def key(self) -> Key:
        """Its job and its number there."""
        return self.job, self.plate


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """A calendar: the last end, each with what failures cost there, and a bound that no calendar beats.

    The bound holds for calendars that are no more days late in any job, whose devices are ready as early together, with
    the same first articles. ``moved_n``
    plates of a plan that is changed left their place in the last one, so that jobs are ``won_days`` less late together.
    """

    placed: tuple[PrintRun, ...]
    finish_min: int
    bound_min: int
    moved_n: int = 0
    won_days: int = 0

    @property
    def gap_percent(self) -> float:
        """How far the finish may be from the best possible."""
        return 100.0 * (self.finish_min - self.bound_min) / max(self.bound_min, 1)


def by_key(tasks: Iterable[Task]) -> dict[Key, Task]:
    """Return tasks by their keys."""
    return {task.key: task for task in tasks}


def finish_of(placed: Iterable[PrintRun], tasks: Mapping[Key, Task]) -> int:
    """Return the last end, each with the minutes that failures are expected to cost on its printer."""
    return max((run.end_min + tasks[run.key].lost_min.get(run.printer, 0) for run in placed), default=0)


def on_one_printer(tasks: Iterable[Task]) -> bool:
    """Return whether all tasks can only run on one printer: each is then cleared before the next starts."""
    return len({printer for task in tasks for printer in task.takes_min}) <= 1
