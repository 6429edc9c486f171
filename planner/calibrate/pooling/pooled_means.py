"""Means of many groups, partly pooled: a group with few values borrows from the others, one with many keeps its own.

Values of group i scatter normally round its own mean, and these means round a common one. The common mean is
integrated in closed form, both spreads over a grid, so that intervals are as wide as it takes to have estimated them
too: Deely and Lindley (1981, doi 10.1080/01621459.1981.10477731). As Morris (1983, doi 10.1080/01621459.1983.10477920)
does, an interval is the normal one of the mean and the variance that come out. The spread between groups has a
half-normal prior, that within them a half-Cauchy one: Gelman (2006, doi 10.1214/06-BA117A).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

from planner.calibrate.pooling.spread_grid import weighed_grid

Floats = NDArray[np.float64]
Z90 = float(ndtri(0.95))
"""Half of a 90 % interval, in standard deviations."""
Z80 = float(ndtri(0.9))
SPREAD_DOWN, SPREAD_UP = 100.0, 5.0
"""Spreads are looked for from this part of what is usual up to this many times it."""


class Usual(NamedTuple):
    """What is usual before anything is told, in the unit of the values.

    The common mean and its standard deviation, the spread of groups round it, and that of values round their group's.
    """

    mean: float
    mean_sd: float
    between: float
    within: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PooledMeans:
    """By group, in the unit of the values: arrays of shape (groups + 1,); the last entry is a new group's.

    ``low`` and ``high`` hold the group's mean in 90 of 100 cases; ``next_low`` and ``next_high`` are the 10th and the
    90th percentile of its next value.
    """

    value: Floats
    low: Floats
    high: Floats
    next_low: Floats
    next_high: Floats


def pooled_means(values: Sequence[Floats], noise: Sequence[Floats], usual: Usual) -> PooledMeans:
    """Return the mean of every group and of a new one.

    Parameters
    ----------
    values
        By group its values, of any number, also none.
    noise
        By group the known variance of each value, such as what calipers add; zeros where there is none.
    usual
        The priors.
    """
    n = np.array([len(own) for own in values], dtype=np.float64)
    seen = n > 0
    mean = np.array([own.mean() if len(own) else 0.0 for own in values], dtype=np.float64)
    squares = np.array([((own - own.mean()) ** 2).sum() if len(own) else 0.0 for own in values], dtype=np.float64)
    known = np.array([own.mean() if len(own) else 0.0 for own in noise], dtype=np.float64)
    own_n, own_mean, own_squares, own_known = n[seen], mean[seen], squares[seen], known[seen]

    def common(tau: Floats, sigma: Floats) -> tuple[Floats, Floats, Floats, Floats]:
        """Return by cell and group the variance within and the weight, by cell the common mean and its variance."""
        inner = sigma[:, None] ** 2 + own_known
        weight = 1.0 / (tau[:, None] ** 2 + inner / own_n)
        variance = 1.0 / (weight.sum(axis=1) + usual.mean_sd**-2)
        middle = variance * ((weight * own_mean).sum(axis=1) + usual.mean / usual.mean_sd**2)
        return inner, weight, middle, variance

    def log_weight(log_tau: Floats, log_sigma: Floats) -> Floats:
        """Return the logarithm of the density of both spreads' logarithms."""
        tau, sigma = np.exp(log_tau), np.exp(log_sigma)
        inner, weight, middle, variance = common(tau, sigma)
        found = -0.5 * ((own_n - 1) * np.log(inner) + own_squares / inner).sum(axis=1)
        found += 0.5 * (np.log(weight).sum(axis=1) + np.log(variance))
        far = (weight * (own_mean - middle[:, None]) ** 2).sum(axis=1)
        found -= 0.5 * (far + ((usual.mean - middle) / usual.mean_sd) ** 2)
        prior = -0.5 * (tau / usual.between) ** 2 - np.log1p((sigma / usual.within) ** 2)
        return np.asarray(found + prior + log_tau + log_sigma)

    ranges = [_range(usual.between), _range(usual.within)]
    tau, sigma, cells = weighed_grid(log_weight, ranges[0], ranges[1])
    inner, weight, middle, variance = common(tau, sigma)
    shape = len(cells), len(n) + 1
    means = np.broadcast_to(middle[:, None], shape).copy()
    variances = np.broadcast_to((tau**2 + variance)[:, None], shape).copy()
    borrowed = weight * inner / own_n
    at = np.flatnonzero(seen)
    means[:, at] = (1.0 - borrowed) * own_mean + borrowed * middle[:, None]
    variances[:, at] = (1.0 - borrowed) * inner / own_n + borrowed**2 * variance[:, None]
    value = cells @ means
    sd = np.sqrt(cells @ (variances + (means - value) ** 2))
    next_sd = np.sqrt(sd**2 + cells @ sigma**2)
    return PooledMeans(
        value=value,
        low=value - Z90 * sd,
        high=value + Z90 * sd,
        next_low=value - Z80 * next_sd,
        next_high=value + Z80 * next_sd,
    )


def _range(usual: float) -> tuple[float, float]:
    """Return between which logarithms a spread is looked for."""
    return float(np.log(usual / SPREAD_DOWN)), float(np.log(usual * SPREAD_UP))
