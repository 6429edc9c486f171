"""Two numbers in one sentence: as many digits as their difference needs, and a word where it is too small to matter.

Written with plain comparisons and formats only, so that the page can follow it from size to size.
"""

from __future__ import annotations

import math

SLACK_MM = 5e-5
"""Two lengths this near are equal: a limit met exactly is met, also by a length from a mesh file.

Single precision (IEEE 754, 24 bits) holds a corner 500 mm from the origin to within 1.5e-5 mm, so a length between two
such corners to within 3e-5 mm; a printer repeats nothing finer than a thousand times that.
"""
REPEATS_MM = 0.05
"""A hand drill and a printer repeat a size to about this much; common practice, no source."""
EQUAL_WORDS = "equal within what a hand can drill and a printer repeat (0.05 mm)"
"""Said of two lengths that differ by less than that."""
FINE_DIGITS, DIGITS_MOST = 6, 9
"""Beyond one digit more than usual it goes in leaps: each step is a piece that the page must hold."""
NOISE = 1e-12
"""What a sum of lengths loses in floating point."""


def digits_for(one: float, other: float, digits_n: int = 2) -> int:
    """Return how many decimals keep two numbers apart: at least ``digits_n``, and no more where they are equal.

    >>> digits_for(3.405, 3.40), digits_for(3.3, 3.4), digits_for(3.4, 3.4)
    (3, 2, 2)
    """
    apart = one - other if one > other else other - one
    if apart < 10.0**-DIGITS_MOST:
        return digits_n
    for digits in (digits_n, digits_n + 1, max(digits_n + 1, 2), FINE_DIGITS):
        if apart >= 10.0**-digits - NOISE:
            return digits
    return DIGITS_MOST


def told_apart(measured: float, limit: float, digits_n: int = 2) -> tuple[str, str]:
    """Return both numbers with the digits that keep them apart.

    >>> told_apart(3.0964, 3.10)
    ('3.096', '3.100')
    """
    digits = digits_for(measured, limit, digits_n)
    return f"{measured:.{digits}f}", f"{limit:.{digits}f}"


def told_beside(measured: float, *limits: float) -> str:
    """Return a number in four significant digits, and in more where it would read as a limit that it only comes near.

    >>> told_beside(40.00004, 40.0), told_beside(40.0, 40.0), told_beside(12.3456, 40.0)
    ('40.00004', '40', '12.35')
    """
    text = f"{measured:.4g}"
    for significant in range(5, 16):
        if not any(float(text) == float(f"{limit:g}") and measured != limit for limit in limits):
            break
        text = f"{measured:.{significant}g}"
    return text


def hardly_apart(one_mm: float, other_mm: float) -> bool:
    """Return whether two lengths differ by less than a hand can drill and a printer repeat.

    >>> hardly_apart(3.06, 3.10), hardly_apart(3.04, 3.10)
    (True, False)
    """
    apart = one_mm - other_mm if one_mm > other_mm else other_mm - one_mm
    return apart < REPEATS_MM


def equal_words(measured_mm: float, limit_mm: float) -> str:
    """Return the end of a sentence about a length that misses its limit by less than anybody can tell; else nothing.

    >>> equal_words(3.0, 3.1)
    ''
    """
    return f": {EQUAL_WORDS}" if hardly_apart(measured_mm, limit_mm) else ""


def percent_or_more(percent: float) -> str:
    """Return a percent to print at or above, rounded so that the printed number is enough.

    >>> percent_or_more(111.11)
    '111.2'
    """
    return f"{math.ceil(round(percent * 10.0, 6)) / 10.0:.1f}"


def percent_or_less(percent: float) -> str:
    """Return a percent to print at or below, rounded so that the printed number is little enough.

    >>> percent_or_less(120.69)
    '120.6'
    """
    return f"{math.floor(round(percent * 10.0, 6)) / 10.0:.1f}"
