"""Simulate: the calendar played many times with slower plates and failures, for its expected and its late finish."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.schedule.calendar.allowed_starts import clears_of, starts_of
from planner.schedule.calendar.schedule_records import Key, PrintRun, Shop, Task
from planner.schedule.calendar.weekly_spans import HORIZON_MIN, first_from
from planner.schedule.risk.checkpoint import Marks
from planner.schedule.risk.risk_one_by_one import left_after

Floats = NDArray[np.float64]
PLAYS_N = 400
STOPS_N = 500
"""A plate that stops this often in one attempt is given up likewise."""
ATTEMPTS_N = 50
"""A plate that fails this often in one play is given up; the play counts as endless."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chance:
    """How one printer departs from the plan: failures per hour, and real over planned time (low, middle, high).

    ``goes_on``: after which of them it goes on, once somebody sees it.
    """

    per_hour: float
    ratio: tuple[float, float, float]
    goes_on: Marks | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Played:
    """Of one job, in minutes from the schedule's start: the mean finish, its 10th, 50th and 90th percentile.

    ``overrun_percent`` says by plate how often its first attempt outlasts the attended span that it begins in.
    """

    expected_min: float
    p10_min: float
    p50_min: float
    p90_min: float
    overrun_percent: Mapping[int, float]
    plays_n: int
    finishes_min: tuple[float, ...] = ()
    """The finish of every play, the soonest first."""


def played(
    placed: Sequence[PrintRun],
    tasks: Mapping[Key, Task],
    shop: Shop,
    chances: Mapping[str, Chance],
    seed: int,
    ratios: Mapping[Key, Mapping[str, float]] | None = None,
    jobs_n: int = 1,
) -> tuple[Played, ...]:
    """Play a schedule, and return what comes of every job.

    ``ratios`` say by plate and printer how much oftener it fails than the printer's chance says. Every printer keeps
    its order. A plate starts as planned, or at the first allowed minute once it can. All plates of a printer are slower
    or faster together (one machine's error; triangular between low and high). A failure is seen when somebody is
    there, the bed is cleared, and the plate begins again; pieces that were printed one after another and are finished
    are not printed again.
    """
    rng = np.random.default_rng(seed)
    order = sorted(placed, key=lambda run: (run.start_min, run.key))
    mine = {}
    for run in order:
        oftener = (ratios or {}).get(run.key, {}).get(run.printer, 1.0)
        chance = chances[run.printer]
        mine[run.key] = replace(chance, per_hour=chance.per_hour * oftener)
    game = _Game(order, tasks, shop, mine)
    finishes = np.zeros((PLAYS_N, jobs_n))
    for play in range(PLAYS_N):
        slow = {p: _ratio(chance, rng) for p, chance in sorted(chances.items())}
        for job, end in game.ends(slow, rng).items():
            finishes[play, job] = end
    return tuple(_summary(finishes[:, job], job, game.over) for job in range(jobs_n))


def _summary(finishes: Floats, job: int, over: Mapping[Key, int]) -> Played:
    """Return what many plays make of one job."""
    p10, p50, p90 = (float(q) for q in np.quantile(finishes, [0.1, 0.5, 0.9]))
    return Played(
        expected_min=float(finishes.mean()),
        p10_min=p10,
        p50_min=p50,
        p90_min=p90,
        overrun_percent={plate: 100.0 * n / PLAYS_N for (of, plate), n in over.items() if of == job},
        plays_n=PLAYS_N,
        finishes_min=tuple(sorted(finishes.tolist())),
    )


class _Game:
    """What is the same in all plays of a schedule, and how often first attempts outlast their span so far."""

    def __init__(
        self, order: Sequence[PrintRun], tasks: Mapping[Key, Task], shop: Shop, chances: Mapping[Key, Chance]
    ) -> None:
        self.order, self.tasks, self.shop, self.chances = order, tasks, shop, chances
        self.starts = {
            run.key: starts_of(shop, run.end_min - run.start_min, run.printer, watched=tasks[run.key].watched)
            for run in order
        }
        self.clears = {printer: clears_of(shop, printer) for printer in shop.change_min}
        self.over = dict.fromkeys((run.key for run in order), 0)

    def ends(self, slow: Mapping[str, float], rng: np.random.Generator) -> dict[int, int]:
        """Return by job the last end of one play, with printers slower or faster by a factor each."""
        free = dict.fromkeys(self.shop.change_min, 0)
        cleared: dict[Key, int] = {}
        ends: dict[int, int] = {}
        for run in self.order:
            waits = [cleared.get(key, 0) for key in self.tasks[run.key].after_keys]
            ready = max([free[run.printer], run.start_min, *waits])
            end, ready = self._printed(run, ready, slow[run.printer], rng)
            ends[run.job] = max(ends.get(run.job, 0), end)
            free[run.printer] = cleared[run.key] = ready
        return ends

    def _printed(self, run: PrintRun, ready: int, slow: float, rng: np.random.Generator) -> tuple[int, int]:
        """Return when a plate ends well that can start at a minute, and when its bed is cleared then."""
        task = self.tasks[run.key]
        whole = takes = max(1, round((run.end_min - run.start_min) * slow))
        for attempt in range(ATTEMPTS_N):
            start = first_from(self.starts[run.key], ready)
            if start is None:
                start = HORIZON_MIN
            if not attempt and _leaves(start, start + takes, self.shop):
                self.over[run.key] += 1
            end, well, done = _attempt(start, takes, self.chances[run.key], self.shop, rng)
            clear = first_from(self.clears[run.printer], end)
            ready = (HORIZON_MIN if clear is None else clear) + self.shop.change_min[run.printer]
            if well or start >= HORIZON_MIN:
                return end, ready
            if task.ends:  # of a plate begun again, heating up stands at its head once more
                takes = min(takes, max(1, round(whole * left_after(task.ends, 1.0 - (takes - done) / whole))))
        return HORIZON_MIN, HORIZON_MIN


def _attempt(start: int, takes: int, chance: Chance, shop: Shop, rng: np.random.Generator) -> tuple[int, bool, float]:
    """Return when an attempt ends, whether well, and the minutes of the run that it did.

    What is gone on after waits for somebody to be there.
    """
    rate, marks = chance.per_hour / 60.0, chance.goes_on
    now, at = float(start), 0.0
    for _ in range(STOPS_N):
        until = rng.exponential(1.0 / rate) if rate > 0 else np.inf
        if until >= takes - at:
            return round(now + takes - at), True, float(takes)
        now += until
        if marks is None or rng.random() >= marks.share:
            return int(now) + 1, False, at + until
        at = (at + until) // (marks.mark_s / 60.0) * marks.mark_s / 60.0
        seen = next((max(now, a) for a, b in shop.attended if now < b), float(HORIZON_MIN))
        now = seen + marks.resume_s / 60.0
    return HORIZON_MIN, False, at


def _ratio(chance: Chance, rng: np.random.Generator) -> float:
    """Return real over planned time of one printer in one play."""
    low, middle, high = chance.ratio
    return float(rng.triangular(low, middle, high)) if high > low else middle


def _leaves(start: int, end: int, shop: Shop) -> bool:
    """Return whether a run leaves the attended span that it begins in."""
    return not any(a <= start and end <= b for a, b in shop.attended)
