"""Stress averaged over a line's width, where it may be the greatest."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

Floats = NDArray[np.float64]
WIDER = 1.2
"""A ball with weights 1 - (r / R)² has a mean distance of 0.625 R, an even ball one of 0.75 R (integrals by hand)."""
ALIKE = 1.05
"""Places that take as much within this ratio are told apart by their averages."""


def over_a_line(
    at_mm: Floats,
    volume: Floats,
    stress: Floats,
    share: Floats,
    share_of: Callable[[Floats], Floats],
    line_width_mm: float,
) -> tuple[Floats, Floats]:
    """Return stresses averaged over a line's width where they may be the greatest, and the shares with them.

    Weights fall smoothly from the middle of a ball to nothing, so that no single point decides; the ball is a little
    wider than a line, so that what counts lies on average as far from its middle as in an even ball of a line's width.
    """
    radius_mm, tree = WIDER * line_width_mm / 2.0, cKDTree(at_mm)
    mean, averaged, done = stress.copy(), share.copy(), np.zeros(len(share), dtype=bool)
    least = 0.5 * share.max(initial=0.0)
    while True:
        top = np.flatnonzero(~done & (share > 0.0) & (share >= least))
        for point, others in zip(top, tree.query_ball_point(at_mm[top], radius_mm), strict=True):
            weight = volume[others] * (1.0 - (((at_mm[others] - at_mm[point]) / radius_mm) ** 2).sum(axis=1))
            mean[point] = weight @ stress[others] / weight.sum()
        averaged[top] = share_of(mean[top])
        done[top] = True
        # What may take as much as the most, within what counts as standing, is averaged too.
        most = averaged[done].max(initial=0.0) / ALIKE
        if most >= least or done.all():
            break
        least = most
    return mean, np.where(done, averaged, np.minimum(share, averaged[done].max(initial=0.0)))
