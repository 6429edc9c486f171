"""A bore that a pin pulls at: how many times the stress of its net section it takes beside the pin.

Frocht and Hill's curve for a pin in a strip (1940; Roark's Formulas, table 17.1, from memory) is several times Kirsch's
bore where the pin is thin for its lug, since all of the pull goes in at its wall. It is 1.2 times the pull over the
pin's own section at the least width that they measured, and is taken to stay so beside thinner pins.

Their strips went on by a width and more beyond the pin. A lug with a round end, half a width beyond it, takes more:
1.27 times what a strip takes, on a fine mesh in plane stress at d / W of 0.375, a cosine of pressure over half of the
wall (``tests/strength/places``). Peterson's Stress Concentration Factors has three curves for it, from memory.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from planner.strength.beam.cut_forces import Cut
from planner.strength.beam.ways.notches import BLUNT_MM, Notch
from planner.strength.loads.part_load import PartLoad

Floats = NDArray[np.float64]
LEAST_SHARE, MOST_SHARE = 0.15, 0.75
"""Widths of bores over their lugs that the curve was measured for."""
SHORT_END = 0.54
"""What a lug's factor grows by per width that its end lies nearer to the pin's middle than a width: 1.27 at a half."""
SHORTEST_END = 0.3
"""No end is nearer than so much of the width; no source."""
WIDE_SHARE = 0.6
"""Corners no farther beside a bore's middle than this share of the lug's width are its own; no source."""
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


def short_end_ratio(share: float) -> float:
    """Return how many times a strip's factor a lug takes whose end is so much of its width beyond the pin's middle.

    >>> short_end_ratio(1.5), round(short_end_ratio(0.5), 2)
    (1.0, 1.27)
    """
    return 1.0 + SHORT_END * (1.0 - min(max(share, SHORTEST_END), 1.0))


def end_mm(points_mm: Floats, cut: Cut, notch: Notch, pull_n: float, wide_mm: float) -> float:
    """Return how far a part reaches beyond a bore's middle, by its corners (n, 3) where its pin pulls."""
    off = points_mm - (cut.at_mm + (notch.places_mm[2] + notch.radius_mm * notch.out) @ cut.axes[:2])
    beside = np.abs(off @ (notch.out @ cut.axes[:2])) <= WIDE_SHARE * wide_mm
    return float((off[beside] @ cut.axes[2] * np.sign(pull_n)).max(initial=0.0))


def pins_pull_n(cut: Cut, notch: Notch, loads: Sequence[PartLoad]) -> float:
    """Return how much of the loads on a bore goes across a cut, along its normal; 0 where nothing presses a bore."""
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
    return pull_n


def blunted(ratio: float, radius_mm: float) -> float:
    """Return a ratio at a root that counts as blunter by a line's width, over which stress is averaged."""
    return 1.0 + (ratio - 1.0) * float((radius_mm / (radius_mm + BLUNT_MM)) ** 0.5)
