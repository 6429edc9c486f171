"""How long a machine with limited acceleration takes along a path of straight moves.

Every move has its own speed limit; between two moves the machine may keep the speed at which an arc
inscribed in the corner would need no more than the acceleration: v2 / R = a (kinematics).
"""

from __future__ import annotations

import math

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def corner_speed_mm_s(angle_rad: float, deviation_mm: float, acceleration_mm_s2: float) -> float:
    """Return the speed through a corner: v = sqrt(a R), R = d sin(t/2) / (1 - sin(t/2)).

    ``angle_rad`` is t, the angle between the two lines: pi goes straight on, 0 turns back. The arc with
    deviation d from the corner's point is inscribed in it (geometry).

    >>> round(corner_speed_mm_s(math.pi / 2, 0.02, 1000.0), 3)
    6.949
    """
    sin = math.sin(angle_rad / 2.0)
    return math.inf if sin >= 1.0 else math.sqrt(acceleration_mm_s2 * deviation_mm * sin / (1.0 - sin))


def move_times_s(
    points_mm: Floats, limits_mm_s: Floats, acceleration_mm_s2: float, deviation_mm: float, corner_mm_s: float
) -> tuple[Floats, Floats]:
    """Return the time of every move (n - 1,) in s and the highest speed it reaches, from rest to rest.

    Parameters
    ----------
    points_mm : (n, 2) or (n, 3) float
        Corners of the path; moves of no length take no time and stop nothing.
    limits_mm_s : (n - 1,) float
        Speed limit of every move.
    deviation_mm, corner_mm_s
        The corner rule: by deviation, or where that is 0 a fixed corner speed.

    Notes
    -----
    Trapezoidal speed profiles with look-ahead: one pass back limits what can still be braked, one pass
    forward what can be reached (textbook kinematics, v2 = u2 + 2 a s).
    """
    steps = np.ascontiguousarray(np.diff(points_mm, axis=0))
    length = np.sqrt((steps**2).sum(axis=1))
    units = np.divide(steps, length[:, None], out=np.zeros_like(steps), where=length[:, None] > 0)
    if units.shape[1] == 2:
        units = np.column_stack([units, np.zeros(len(units))])
    times: Floats
    peaks: Floats
    corner = float(acceleration_mm_s2), float(deviation_mm), float(corner_mm_s)  # a whole number would compile anew
    times, peaks = _profile(length, units, limits_mm_s.astype(np.float64, copy=False), *corner)
    return times, peaks


@njit(cache=True)
def _profile(length, units, limit, a, deviation, corner):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Plan entry speeds backward, then run forward; everything in mm, s."""
    n = length.shape[0]
    entry = np.zeros(n + 1)
    last = -1
    for i in range(n):  # what each corner allows
        if length[i] <= 0.0:
            continue
        if last >= 0:
            cos_t = -(units[last, 0] * units[i, 0] + units[last, 1] * units[i, 1] + units[last, 2] * units[i, 2])
            cos_t = min(max(cos_t, -1.0), 1.0)
            allowed = corner
            if deviation > 0.0:
                sin = np.sqrt((1.0 - cos_t) / 2.0)  # half-angle formula
                allowed = 1e9 if sin >= 1.0 - 1e-12 else np.sqrt(a * deviation * sin / (1.0 - sin))
            elif cos_t < -1.0 + 1e-9:  # straight on
                allowed = 1e9
            entry[i] = min(allowed, limit[last], limit[i])
        last = i
    for i in range(n - 1, -1, -1):  # what can still be braked
        if length[i] <= 0.0:
            entry[i] = entry[i + 1]
        else:
            entry[i] = min(entry[i], np.sqrt(entry[i + 1] ** 2 + 2.0 * a * length[i]))
    times = np.zeros(n)
    peaks = np.zeros(n)
    v = 0.0
    for i in range(n):
        s = length[i]
        if s <= 0.0:
            continue
        out = min(entry[i + 1], np.sqrt(v * v + 2.0 * a * s))
        top = min(limit[i], np.sqrt(a * s + (v * v + out * out) / 2.0))
        top = max(top, v, out)
        ramps = (2.0 * top * top - v * v - out * out) / (2.0 * a)
        times[i] = (2.0 * top - v - out) / a + max(s - ramps, 0.0) / top
        peaks[i] = top
        v = out
    return times, peaks
