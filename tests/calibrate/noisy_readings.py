"""Readings of a coupon on a printer whose offsets are known."""

from __future__ import annotations

import numpy as np

from planner.calibrate import Reading, coupon

FEATURES = coupon(0.45).features


def noisy_readings(upright: float, lying: float, sigma: float, seed: int) -> list[Reading]:
    """Return readings of a printer with known offsets, walls from 0.6 and gaps from 0.2 mm, with noise."""
    rng = np.random.default_rng(seed)
    under = {"upright": upright, "lying": lying, "pin": -0.05}
    found = []
    for one in FEATURES:
        if one.kind in ("wall", "gap"):
            found.append(
                Reading(feature=one, measured_mm=None, passed=one.drawn_mm >= (0.6 if one.kind == "wall" else 0.2))
            )
        else:
            measured = one.inside_mm - under.get(one.kind, 0.0) + float(rng.normal(0, sigma))
            found.append(Reading(feature=one, measured_mm=measured, passed=None))
    return found
