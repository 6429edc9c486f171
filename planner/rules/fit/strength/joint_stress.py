"""Stresses about a pin: pure functions of force in N and lengths in mm, in MPa (N/mm2).

Formulas are those of every machine-elements textbook for a pin in a lug (net section, bearing, tear-out) and for
a pin in a fork (Roloff/Matek, Maschinenelemente, chapter on pins, from memory).
"""

from __future__ import annotations

import math

SHEAR_SHARE = 1.0 / math.sqrt(3.0)
"""Shear strength over tensile strength, by the von Mises criterion."""


def net_section_mpa(force_n: float, beside_mm: float, deep_mm: float) -> float:
    """Return the tension beside a bore, carried by the plastic at both of its sides: F / (2 e t).

    >>> net_section_mpa(1000.0, 5.0, 10.0)
    10.0
    """
    return force_n / (2.0 * beside_mm * deep_mm)


def bearing_mpa(force_n: float, pin_mm: float, deep_mm: float) -> float:
    """Return the pressure of a pin on its bore's wall, over the projected area: F / (d t).

    >>> bearing_mpa(1000.0, 5.0, 10.0)
    20.0
    """
    return force_n / (pin_mm * deep_mm)


def tear_out_mpa(force_n: float, beyond_mm: float, deep_mm: float) -> float:
    """Return the shear in the two planes along which a pin would tear out of an edge: F / (2 a t).

    >>> tear_out_mpa(1000.0, 4.0, 10.0)
    12.5
    """
    return force_n / (2.0 * beyond_mm * deep_mm)


def pin_shear_mpa(force_n: float, pin_mm: float, planes: int = 1) -> float:
    """Return the mean shear in a round pin cut in one plane or two: F / (n pi d2 / 4).

    >>> round(pin_shear_mpa(1000.0, 10.0, 2), 3)
    6.366
    """
    return force_n / (planes * math.pi * pin_mm**2 / 4.0)


def pin_bending_mpa(force_n: float, pin_mm: float, long_mm: float) -> float:
    """Return the bending stress of a round pin in a fork with play: M = F l / 8, sigma = 32 M / (pi d3).

    ``long_mm`` is the rod's thickness and both cheeks of the fork.

    >>> round(pin_bending_mpa(1000.0, 10.0, 40.0), 3)
    50.93
    """
    return 32.0 * (force_n * long_mm / 8.0) / (math.pi * pin_mm**3)
