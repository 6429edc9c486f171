"""A bore that a pin pulls at: how many times the stress of its net section it takes beside the pin.

Frocht and Hill's curve for a pin in a strip (1940; Roark's Formulas, table 17.1, from memory) is several times Kirsch's
bore where the pin is thin for its lug, since all of the pull goes in at its wall. It is 1.2 times the pull over the
pin's own section at the least width that they measured, and is taken to stay so beside thinner pins.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planner.strength.beam.cut_forces import Cut
from planner.strength.beam.ways.notches import BLUNT_MM, Notch
from planner.strength.loads.part_load import PartLoad

LEAST_SHARE, MOST_SHARE = 0.15, 0.75
"""Widths of bores over their lugs that the curve was measured for."""
NEAR_SHARE = 0.5
"""A load is on a bore's axis if it is no farther off than this share of its radius; no source."""


def pin_ratio(share: float) -> float:
    """Return how many times the pull over the net section a pin of so much of its lug's width makes beside it.

    >>> round(pin_ratio(0.5), 2)
    2.51
    """
    q = min(max(share, LEAST_SHARE), MOST_SHARE)
    found = 12.882 - 52.714 * q + 89.762 * q**2 - 51.667 * q**3
    return found * (q / (1.0 - q)) * (1.0 - share) / share if share < LEAST_SHARE else found


def off_mm(cut: Cut, load: PartLoad) -> float:
    """Return how far a load lies off a cut; on the bore of a notch only if by less than that is near its axis."""
    return float((np.array(load.at_mm) - cut.at_mm) @ cut.axes[2])


def pins_pull_n(cut: Cut, notch: Notch, loads: Sequence[PartLoad]) -> float:
    """Return how much of the loads on a bore goes across a cut; 0 of a notch that is none, or that nothing presses."""
    if notch.radius_mm <= 0.0:
        return 0.0
    run = notch.places_mm[1] - notch.places_mm[0]
    axis = run @ cut.axes[:2] / max(float(np.linalg.norm(run)), 1e-9)
    centre = cut.at_mm + (notch.places_mm[2] + notch.radius_mm * notch.out) @ cut.axes[:2]
    pull_n = 0.0
    for load in loads:
        off = np.array(load.at_mm) - centre
        off -= axis * (axis @ off)
        if load.over and np.linalg.norm(off) < NEAR_SHARE * notch.radius_mm:
            pull_n += float(np.dot(load.force_n, cut.axes[2]))
    return abs(pull_n)


def blunted(ratio: float, radius_mm: float) -> float:
    """Return a ratio at a root that counts as blunter by a line's width, over which stress is averaged."""
    return 1.0 + (ratio - 1.0) * float((radius_mm / (radius_mm + BLUNT_MM)) ** 0.5)
