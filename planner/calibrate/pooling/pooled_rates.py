"""Failure rates of many groups, partly pooled: a group that ran few hours borrows from the others.

Failures of group i come at a constant rate over its hours, and the rates scatter round a common one as a Gamma does:
Clayton and Kaldor (1987, Biometrics 43:671). The common rate and the scatter are integrated over a grid, so that
intervals are as wide as it takes to have estimated them too (Deely and Lindley 1981,
doi 10.1080/01621459.1981.10477731). Its ends are those of the mixture of Gammas itself, whose tail at low rates is
heavy.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import gammainc, gammaln

from planner.calibrate.pooling.spread_grid import weighed_grid
from planner.sourced import Sourced

Floats = NDArray[np.float64]
USUAL_SCATTER = 1.0
"""The scatter of printers' rates over the common one, as a share: where its half-normal prior ends for two thirds; our
choice, no source."""
Z90 = 1.645
MIXED_N = 50
"""So many of the heaviest cells of the grid are mixed."""
FAR, HALVINGS_N = 7.0, 16
"""Ends are looked for within e^7 of the mean, to a share of e^(7/2^15): a five-thousandth."""
WIDEST = 8.0
"""The common rate is looked for within this factor of the ends of what is usual."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PooledRates:
    """Failures per hour by group: arrays of shape (groups + 1,); the last entry is a new group's.

    ``low`` and ``high`` hold the rate in 90 of 100 cases.
    """

    value: Floats
    low: Floats
    high: Floats


def pooled_rates(failed_n: Floats, hours: Floats, usual: Sourced) -> PooledRates:
    """Return the rate of every group and of a new one.

    Parameters
    ----------
    failed_n, hours
        Arrays of shape (groups,): how often each failed, and how long each ran; both may be 0.
    usual
        The common rate before anything is told; its range is taken for 90 of 100 cases of a log-normal.
    """
    k, t = np.append(failed_n, 0.0), np.append(hours, 0.0)
    middle = float(np.log(usual.value))
    sd = max(0.1, float(np.log(max(usual.high, usual.value) / max(min(usual.low, usual.value), 1e-9))) / (2 * Z90))

    def log_weight(log_rate: Floats, log_scatter: Floats) -> Floats:
        """Return the logarithm of the density of the common rate's and the scatter's logarithms."""
        rate, scatter = np.exp(log_rate)[:, None], np.exp(log_scatter)[:, None]
        shape, per = scatter**-2.0, scatter**-2.0 / rate
        # negative binomial counts; what does not hang on the two numbers is left out
        found = gammaln(shape + k) - gammaln(shape) + shape * np.log(per / (per + t)) - k * np.log(per + t)
        prior = -0.5 * ((log_rate - middle) / sd) ** 2 - 0.5 * (np.exp(log_scatter) / USUAL_SCATTER) ** 2 + log_scatter
        return np.asarray(found.sum(axis=1) + prior)

    around = float(np.log(WIDEST)) + 2.0 * sd
    scatters = float(np.log(USUAL_SCATTER / 50)), float(np.log(USUAL_SCATTER * 4))
    rate, scatter, cells = weighed_grid(log_weight, (middle - around, middle + around), scatters)
    shape, per = scatter[:, None] ** -2.0, scatter[:, None] ** -2.0 / rate[:, None]
    value = cells @ ((shape + k) / (per + t))
    heavy = np.argsort(-cells)[:MIXED_N]
    mixed = cells[heavy] / cells[heavy].sum(), shape[heavy] + k, per[heavy] + t
    low, high = (_quantile(*mixed, value, share) for share in (0.05, 0.95))
    return PooledRates(value=value, low=np.minimum(low, value), high=np.maximum(high, value))


def _quantile(cells: Floats, shape: Floats, per: Floats, value: Floats, share: float) -> Floats:
    """Return below which rate a share of a mixture of Gammas lies, by halving a range of logarithms."""
    low, high = np.log(value) - FAR, np.log(value) + FAR
    for _ in range(HALVINGS_N):
        middle = 0.5 * (low + high)
        below = cells @ gammainc(shape, per * np.exp(middle)) < share
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    return np.asarray(np.exp(0.5 * (low + high)))
