"""How stress under a strip that is glued down rises towards its edge: a beam on an elastic foundation.

The strip's own lower half is what gives way, so that the foundation is 2 E / h for each mm² (Kanninen 1973, "An
augmented double cantilever beam model for studying crack propagation and arrest", International Journal of Fracture 9,
doi 10.1007/BF00035958, from memory); for a rectangle the wave number is 6^(1/4) / h, as there. What a force and a
moment at one free end do follows from Hetényi 1946, "Beams on Elastic Foundation", finite beams, from memory. A short
or thick strip is stiff, and takes N / A + M / W.
"""

from __future__ import annotations

import math

FAR = 20.0
"""From so long on, in wave lengths over 2 pi, the far end does not count."""


def wave_per_mm(wide_mm: float, high_mm: float, second_mm4: float) -> float:
    """Return the wave number of a strip on its own lower half: the fourth root of b / (2 h I).

    >>> round(wave_per_mm(10.0, 4.0, 10.0 * 4.0**3 / 12.0) * 4.0 / 6.0**0.25, 9)
    1.0
    """
    return float((wide_mm / (2.0 * high_mm * second_mm4)) ** 0.25)


def moment_rise(waves_rad: float) -> float:
    """Return how many times 6 M / (b L²) the edge takes under a moment at it; ``waves_rad`` is the wave number times L.

    >>> round(moment_rise(0.1), 3)
    1.0
    """
    x = min(waves_rad, FAR)
    if x < 0.05:
        return 1.0
    sinh, sin = math.sinh(x) ** 2, math.sin(x) ** 2
    return max(1.0, waves_rad**2 / 3.0 * (sinh + sin) / (sinh - sin))


def force_rise(waves_rad: float) -> float:
    """Return how many times 4 V / (b L) the edge takes under a force at it.

    >>> round(force_rise(0.1), 3)
    1.0
    """
    x = min(waves_rad, FAR)
    if x < 0.05:
        return 1.0
    both = math.sinh(x) * math.cosh(x) - math.sin(x) * math.cos(x)
    return max(1.0, waves_rad / 2.0 * both / (math.sinh(x) ** 2 - math.sin(x) ** 2))


def edge_rise(force_n: float, moment_n_mm: float, long_mm: float, rad_per_mm: float) -> float:
    """Return how many times N / A + M / W the edge takes, for a force and a moment about the middle of a face.

    A force beyond the edge counts there, with the moment that is left; one over the face spreads over the wave.
    """
    at_edge_n_mm = moment_n_mm - force_n * long_mm / 2.0
    waves = rad_per_mm * long_mm
    stiff = force_n * long_mm + 6.0 * moment_n_mm
    if stiff <= 0.0:
        return 1.0
    if at_edge_n_mm <= 0.0:
        return max(1.0, waves / 2.0)
    by_force, by_moment = 4.0 * force_n * long_mm, 6.0 * at_edge_n_mm
    return (force_rise(waves) * by_force + moment_rise(waves) * by_moment) / (by_force + by_moment)
