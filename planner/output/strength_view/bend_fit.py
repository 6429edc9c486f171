"""How a part bends, as a few numbers: one polynomial a direction over its places on the bed."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations_with_replacement

import numpy as np
from numpy.typing import NDArray

from planner.plan import PlannedPart
from planner.strength import Bend

Floats = NDArray[np.float64]
DEGREES = (3, 4, 5, 6)
"""A beam under forces at points bends by the third power (textbook); holes and turns of its way ask for more."""
OFF_SHARE = 0.03
"""Good enough where no twentieth of its places is off by more than this share of the greatest shift."""
DRAWN_SHARE = 0.08
"""A bend is drawn so large that its greatest shift is about this share of the part's size."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BendFit:
    """Shift in mm at size: sums of powers of x, y and z of the place, counted from ``middle_mm``, over ``half_mm``."""

    middle_mm: Floats
    half_mm: float
    powers: tuple[tuple[int, int, int], ...]
    amounts_mm: Floats
    """(terms, 3)."""
    off_share: float
    """How far 19 of 20 places are off at most, as a share of the greatest shift."""

    def at(self, points_mm: Floats) -> Floats:
        """Return the shift at places (n, 3)."""
        return np.asarray(_terms((points_mm - self.middle_mm) / self.half_mm, self.powers) @ self.amounts_mm)


def bend_fit(part: PlannedPart, bend: Bend) -> BendFit:
    """Return the lowest polynomial that tells a bend well enough, or the best of all."""
    points = part.on_bed(bend.points_mm)
    # A shift is turned and mirrored as the part is, but is at size already.
    shifts = part.on_bed(bend.points_mm + 100.0 * bend.shift_mm / np.array(part.scale_percent)) - points
    low, high = points.min(axis=0), points.max(axis=0)
    middle, half = (low + high) / 2.0, float((high - low).max()) / 2.0
    most = max(bend.most_mm, 1e-9)
    tried: list[BendFit] = []
    for degree in DEGREES:
        powers = tuple(
            (chosen.count(0), chosen.count(1), chosen.count(2))
            for total in range(degree + 1)
            for chosen in combinations_with_replacement(range(3), total)
        )
        terms = _terms((points - middle) / half, powers)
        amounts = np.asarray(np.linalg.lstsq(terms, shifts, rcond=1e-9)[0], dtype=np.float64)
        off = float(np.percentile(np.linalg.norm(terms @ amounts - shifts, axis=1), 95.0)) / most
        tried.append(BendFit(middle_mm=middle, half_mm=half, powers=powers, amounts_mm=amounts, off_share=off))
        if off <= OFF_SHARE:
            break
    return min(tried, key=lambda one: one.off_share)


def exaggeration(size_mm: float, most_mm: float) -> float:
    """Return how many times too large a bend is drawn: 1, 2 or 5 times a power of ten, at least once.

    >>> exaggeration(100.0, 0.6), exaggeration(100.0, 30.0)
    (10.0, 1.0)
    """
    wanted = max(DRAWN_SHARE * size_mm / max(most_mm, 1e-9), 1.0)
    power = 10.0 ** math.floor(math.log10(wanted))
    return max(step * power for step in (1.0, 2.0, 5.0) if step * power <= wanted * (1.0 + 1e-9))


def _terms(points: Floats, powers: tuple[tuple[int, int, int], ...]) -> Floats:
    """Return every term at every place."""
    return np.stack([np.prod(points ** np.array(power), axis=1) for power in powers], axis=1)
