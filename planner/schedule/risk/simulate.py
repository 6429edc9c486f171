"""Simulate: the calendar played many times with slower plates and failures, for its expected and its late finish."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from planner.schedule.calendar.allowed_starts import clears_of, starts_of
from planner.schedule.calendar.task import Placed, Shop, Task
from planner.schedule.calendar.weekly_spans import HORIZON_MIN, first_from
from planner.schedule.risk.checkpoint import Marks
from planner.schedule.risk.risk_in_turn import left_after

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
    """Minutes from the plan's start: the mean finish, its 10th, 50th and 90th percentile.

    ``overrun_percent`` says by plate how often its first attempt outlasts the attended span that it begins in.
    """

    expected: float
    p10: float
    p50: float
    p90: float
    overrun_percent: Mapping[int, float]
    plays_n: int
    finishes: tuple[float, ...] = ()
    """The finish of every play, the soonest first."""


def played(
    placed: Sequence[Placed],
    tasks: Mapping[int, Task],
    shop: Shop,
    chances: Mapping[str, Chance],
    seed: int,
    ratios: Mapping[int, Mapping[str, float]] | None = None,
) -> Played:
    """Play a calendar; ``ratios`` say by plate and printer how much oftener it fails than the printer's chance says.

    Every printer keeps its order. A plate starts as planned, or at the first allowed minute once it can. All plates of
    a printer are slower or faster together (one machine's error; triangular between low and high). A failure is
    seen when somebody is there, the bed is cleared, and the plate begins anew; pieces that were printed one after
    another and are finished are not printed again.
    """
    rng = np.random.default_rng(seed)
    order = sorted(placed, key=lambda run: (run.start, run.plate))
    starts = {run.plate: starts_of(shop, run.end - run.start, watched=tasks[run.plate].watched) for run in order}
    clears = {printer: clears_of(shop, change) for printer, change in shop.change_min.items()}
    oftener = {run.plate: (ratios or {}).get(run.plate, {}).get(run.printer, 1.0) for run in order}
    mine = {
        run.plate: replace(chances[run.printer], per_hour=chances[run.printer].per_hour * oftener[run.plate])
        for run in order
    }
    finishes = np.zeros(PLAYS_N)
    over = dict.fromkeys((run.plate for run in order), 0)
    for play in range(PLAYS_N):
        slow = {p: _ratio(chance, rng) for p, chance in sorted(chances.items())}
        free = dict.fromkeys(shop.change_min, 0)
        cleared: dict[int, int] = {}
        for run in order:
            whole = takes = max(1, round((run.end - run.start) * slow[run.printer]))
            ready = max(free[run.printer], run.start, *(cleared.get(p, 0) for p in tasks[run.plate].after))
            for attempt in range(ATTEMPTS_N):
                start = first_from(starts[run.plate], ready)
                if start is None:
                    start = HORIZON_MIN
                if not attempt and _leaves(start, start + takes, shop):
                    over[run.plate] += 1
                end, well, done = _attempt(start, takes, mine[run.plate], shop, rng)
                clear = first_from(clears[run.printer], end)
                ready = (HORIZON_MIN if clear is None else clear) + shop.change_min[run.printer]
                if well or start >= HORIZON_MIN:
                    break
                ends = tasks[run.plate].ends
                if ends:  # of a plate begun again, heating up stands at its head once more
                    takes = min(takes, max(1, round(whole * left_after(ends, 1.0 - (takes - done) / whole))))
            else:
                end = ready = HORIZON_MIN
            finishes[play] = max(finishes[play], end)
            free[run.printer] = cleared[run.plate] = ready
    p10, p50, p90 = (float(q) for q in np.quantile(finishes, [0.1, 0.5, 0.9])) if order else (0.0, 0.0, 0.0)
    return Played(
        expected=float(finishes.mean()),
        p10=p10,
        p50=p50,
        p90=p90,
        overrun_percent={plate: 100.0 * n / PLAYS_N for plate, n in over.items()},
        plays_n=PLAYS_N,
        finishes=tuple(sorted(finishes.tolist())),
    )


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
