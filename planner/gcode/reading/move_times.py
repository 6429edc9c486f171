"""How long moves take: the layers' own look-ahead model, from each rest of the machine to the next."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from planner.gcode.reading.machine_state import ACCELERATION, DE, DWELL, FEED, X0, X1, Z0, Z1
from planner.job import Printer
from planner.layers import move_times_s

Floats = NDArray[np.float64]


def rest_to_rest_s(moves: Floats, printer: Printer) -> tuple[Floats, Floats]:
    """Return the time (n,) in s of every move and the highest speed it reaches (n,) in mm/s.

    A move of filament alone, a dwell and a change of the acceleration are rests; between them speeds are planned ahead.
    """
    fastest = printer.speed_max_mm_s.value
    feed = np.clip(np.where(np.isfinite(moves[:, FEED]), moves[:, FEED], fastest), 1e-3, fastest)
    strong = np.minimum(moves[:, ACCELERATION], printer.acceleration_max_mm_s2.value)
    length = np.linalg.norm(moves[:, X1 : Z1 + 1] - moves[:, X0 : Z0 + 1], axis=1)
    alone = np.abs(moves[:, DE])
    ramp = feed**2 / strong
    trapezoid = np.where(alone >= ramp, alone / feed + feed / strong, 2.0 * np.sqrt(alone / strong))
    still = length == 0.0
    times = np.where(still, trapezoid, 0.0) + moves[:, DWELL]
    peaks = np.zeros(len(moves))
    breaks = np.zeros(len(moves) + 1, dtype=bool)
    breaks[0] = breaks[-1] = True
    stops = still & ((alone > 0) | (moves[:, DWELL] > 0))
    breaks[:-1] |= stops
    breaks[1:] |= stops
    breaks[1:-1] |= strong[1:] != strong[:-1]
    edges = np.flatnonzero(breaks)
    deviation = printer.corner_deviation_mm.value if printer.corner_deviation_mm else 0.0
    corner = printer.corner_speed_mm_s.value if printer.corner_speed_mm_s else 0.0
    points = np.vstack([moves[:, X0 : Z0 + 1], moves[-1:, X1 : Z1 + 1]])
    for low, high in pairwise(edges):
        if high - low == 1 and still[low]:
            continue
        took, peak = move_times_s(points[low : high + 1], feed[low:high], float(strong[low]), deviation, corner)
        times[low:high] += took
        peaks[low:high] = peak
    return times, peaks
