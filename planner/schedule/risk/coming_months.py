"""Coming months: devices that come in by chance wait for printers that fail by chance, as a chapter's history has it.

Devices come in as a Poisson process and are served in that order; every plate goes to the printer that can start it
first; one that fails is started anew. With one printer and one plate a device this is the queue whose waiting times
Pollaczek (1930) and Khinchine (1932) gave: the tests hold it against them. How often devices come in and printers fail
is known by few events: each play draws both anew from what those leave open (a Gamma, conjugate; textbook).
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Span = tuple[int, int]
"""From a minute up to, but not including, another; counted from now."""
PLAYS_N = 200
ATTEMPTS_N = 50
"""A plate that fails this often is given up; its device is never ready."""
DAY_MIN = 24 * 60
SEED = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """One printer: when somebody is there, whether plates run on without, from when on it is free, how often it fails.

    ``fails_ratio`` is the standard deviation of its failure rate over the rate.
    """

    spans: tuple[Span, ...]
    unattended: bool = True
    free_min: float = 0.0
    change_min: float = 0.0
    fails_per_hour: float = 0.0
    fails_ratio: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Past:
    """What a chapter's history gives: devices as the minutes of their plates, and how long hands took afterwards.

    ``backlog`` are the devices that are open now, in their order; ``arrived_n`` devices came in within ``seen_days``.
    """

    benches: tuple[Bench, ...]
    devices: tuple[tuple[float, ...], ...]
    backlog: tuple[tuple[float, ...], ...]
    lags_min: tuple[float, ...]
    arrived_n: int
    seen_days: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Months:
    """The 10th, 50th and 90th percentile over all plays.

    Of the devices handed over in each month, of the days from coming in to that, and of those that are open at the end;
    infinite where a device is not ready within the year.
    """

    devices_n: tuple[tuple[float, float, float], ...]
    waits_days: tuple[float, float, float]
    open_n: tuple[float, float, float]
    plays_n: int


def coming_months(past: Past, ends_min: Sequence[float], seed: int = SEED) -> Months:
    """Return what the months to come bring; ``ends_min`` says when each ends, in minutes from now."""
    rng = np.random.default_rng(seed)
    handed_n, waits, open_n = [], [], []
    horizon_min = ends_min[-1]
    for _ in range(PLAYS_N):
        # Jeffreys' prior of a Poisson rate
        per_min = rng.gamma(past.arrived_n + 0.5) / (past.seen_days * DAY_MIN)
        arrives = np.sort(rng.uniform(0.0, horizon_min, rng.poisson(per_min * horizon_min)))
        drawn = rng.integers(len(past.devices), size=len(arrives))
        devices = [(0.0, plates) for plates in past.backlog]
        devices += [(float(at), past.devices[n]) for at, n in zip(arrives, drawn, strict=True)]
        rates = [_rate(bench, rng) for bench in past.benches]
        printed = printed_min(devices, past.benches, rates, rng)
        handed = printed + rng.choice(np.array(past.lags_min), len(printed))
        edges = np.searchsorted(np.sort(handed), [0.0, *ends_min], side="right")
        handed_n.append(np.diff(edges))
        waits.append((handed - np.array([at for at, _ in devices]))[len(past.backlog) :])
        open_n.append(float((handed > horizon_min).sum()))
    return Months(
        devices_n=tuple(_percentiles(column) for column in np.array(handed_n).T),
        waits_days=_percentiles(np.concatenate(waits) / DAY_MIN),
        open_n=_percentiles(np.array(open_n)),
        plays_n=PLAYS_N,
    )


def printed_min(
    devices: Sequence[tuple[float, Sequence[float]]],
    benches: Sequence[Bench],
    fails_per_min: Sequence[float],
    rng: np.random.Generator,
) -> Floats:
    """Return when the last plate of every device is off the printer, in minutes; infinite where it never is.

    ``devices`` are in the order in which they are served: when each comes in, and the minutes of its plates.
    """
    free = [bench.free_min for bench in benches]
    found = []
    for arrives, plates in devices:
        last = arrives
        for takes in plates:
            starts = [_start(bench, max(at, arrives), takes) for bench, at in zip(benches, free, strict=True)]
            n = int(np.argmin(starts)) if len(starts) > 1 else 0
            end = _end(benches[n], starts[n], takes, fails_per_min[n], rng)
            last = max(last, end)
            if end < math.inf:
                free[n] = _cleared(benches[n], end)
        found.append(last)
    return np.array(found)


def _rate(bench: Bench, rng: np.random.Generator) -> float:
    """Return a failure rate per minute, drawn from what the printer's history leaves open."""
    if not bench.fails_per_hour or not bench.fails_ratio:
        return bench.fails_per_hour / 60.0
    shape = bench.fails_ratio**-2
    return float(rng.gamma(shape) / shape) * bench.fails_per_hour / 60.0


def _end(bench: Bench, start: float, takes: float, fails_per_min: float, rng: np.random.Generator) -> float:
    """Return when a plate is done that is started anew whenever it fails."""
    for _ in range(ATTEMPTS_N if fails_per_min else 1):
        fails = rng.exponential(1.0 / fails_per_min) if fails_per_min else math.inf
        if fails >= takes or start == math.inf:
            return start + takes
        start = _start(bench, _cleared(bench, start + fails), takes)
    return math.inf


def _cleared(bench: Bench, end: float) -> float:
    """Return when somebody has cleared the bed."""
    return _first(bench.spans, end, bench.change_min) + bench.change_min


def _start(bench: Bench, since: float, takes: float) -> float:
    """Return when a plate can be started: somebody is there, until its end where none may run on alone."""
    return _first(bench.spans, since, 0.0 if bench.unattended else takes)


def _first(spans: Sequence[Span], since: float, needs: float) -> float:
    """Return from when on a span has room for so many minutes; infinite where none has."""
    n = max(0, bisect_right(spans, (since, math.inf)) - 1)
    for low, high in spans[n:]:
        begin = max(float(low), since)
        if begin < high and begin + needs <= high:
            return begin
    return math.inf


def _percentiles(values: Floats) -> tuple[float, float, float]:
    """Return the 10th, 50th and 90th percentile, each a value that came out; none of nothing: not a number."""
    if not len(values):
        return (math.nan,) * 3
    low, middle, high = np.quantile(values, [0.1, 0.5, 0.9], method="inverted_cdf")
    return float(low), float(middle), float(high)
