"""Drift: where in a series its level, or the rate of its failures, became another one.

Each way to part a series in two is a test, and the chance of the strongest one is multiplied by how many there were
(Bonferroni), over all series that are looked at together, so that of 100 sound workshops at most 5 are told a drift.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import bdtr, bdtrc, betaincinv, stdtr, stdtrit

Floats = NDArray[np.float64]
OwnUnit = float
"""A number in the unit of the series, whatever that is."""
LEVEL_P = 0.05
LEAST_N = 2
"""So many values at least stand on each side of a change."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """A change in the series of number ``series``: the entry ``first`` is the first one after it.

    ``change`` is after less before, in the series' unit, or the ratio of two rates, with its 90 % interval.
    """

    series: int
    first: int
    before: tuple[float, int]
    """Mean or rate, and how many values it is of."""
    after: tuple[float, int]
    change: tuple[float, float, float]
    """Low end, middle, high end."""


def level_drifts(series: Sequence[Floats], least_spread: OwnUnit) -> tuple[Drift, ...]:
    """Return the changes of level, at most one a series; values stand in the order in which they were taken.

    ``least_spread`` is what the values scatter at least, such as what calipers read. The scatter is that from one value
    to the next, which a change of level hardly widens (von Neumann, Kent, Bellinson and Hart 1941, Ann. Math. Stat.
    12:153), pooled over all series; its degrees of freedom are those of a chi-square of the same variance.
    """
    sizes = np.array([len(values) for values in series if len(values) > 1], dtype=np.float64)
    tests_n = sum(max(0, len(values) - 2 * LEAST_N + 1) for values in series)
    if not tests_n:
        return ()
    steps_n = float((sizes - 1).sum())
    squares = sum(float((np.diff(values) ** 2).sum()) for values in series)
    sd = max(least_spread, float(np.sqrt(0.5 * squares / steps_n)))
    free = 2.0 * steps_n**2 / float((3 * sizes - 4).sum())
    found = []
    for number, values in enumerate(series):
        cuts = np.arange(LEAST_N, len(values) - LEAST_N + 1)
        if not len(cuts):
            continue
        sums = np.cumsum(values)
        before, after = sums[cuts - 1] / cuts, (sums[-1] - sums[cuts - 1]) / (len(values) - cuts)
        error = sd * np.sqrt(1.0 / cuts + 1.0 / (len(values) - cuts))
        best = int(np.argmax(np.abs(after - before) / error))
        change = float(after[best] - before[best])
        if 2.0 * float(stdtr(free, -abs(change) / error[best])) * tests_n < LEVEL_P:
            half = float(stdtrit(free, 0.95) * error[best])
            first = int(cuts[best])
            drift = Drift(
                series=number,
                first=first,
                before=(float(before[best]), first),
                after=(float(after[best]), len(values) - first),
                change=(change - half, change, change + half),
            )
            found.append(drift)
    return tuple(found)


def rate_drifts(series: Sequence[tuple[Floats, Floats, Sequence[int]]]) -> tuple[Drift, ...]:
    """Return the changes of the rate of failures, at most one a series.

    Each series gives the hours of its prints, whether each failed (0 or 1), and the entries at which it may be parted.
    Given how many failed in all, those after a change are binomial in the share of the hours (Przyborowski and Wilenski
    1940, Biometrika 31:313); the interval of the ratio is that of the binomial share (Clopper and Pearson 1934).
    """
    tests_n = sum(len(cuts) for _, _, cuts in series)
    found = []
    for number, (hours, failed, cuts) in enumerate(series):
        total_n, total_h = int(failed.sum()), float(hours.sum())
        best: tuple[float, int] = (1.0, 0)
        for cut in cuts if total_n else ():
            after_n, share = int(failed[cut:].sum()), float(hours[cut:].sum()) / total_h
            if 0.0 < share < 1.0:
                tails = bdtr(after_n, total_n, share), bdtrc(after_n - 1, total_n, share) if after_n else 1.0
                best = min(best, (2.0 * float(min(tails)), cut))
        chance, first = best
        if not first or chance * tests_n >= LEVEL_P:
            continue
        after_n, after_h = int(failed[first:].sum()), float(hours[first:].sum())
        before_n, before_h = total_n - after_n, total_h - after_h
        shares = (
            float(betaincinv(after_n, before_n + 1, 0.05)) if after_n else 0.0,
            after_n / total_n,
            float(betaincinv(after_n + 1, before_n, 0.95)) if before_n else 1.0,
        )
        low, middle, high = (share / max(1e-9, 1.0 - share) * before_h / after_h for share in shares)
        drift = Drift(
            series=number,
            first=first,
            before=(before_n / before_h, before_n),
            after=(after_n / after_h, after_n),
            change=(low, middle, high),
        )
        found.append(drift)
    return tuple(found)
