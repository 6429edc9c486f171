"""How long a child takes to grow by some millimetres, by published tables; it says nothing of anybody's limb.

The tables are of many children of each age, not of one child over years (Snyder et al. 1977), and a body does not
shrink: each percentile is followed as a line that never falls, its value standing at the middle of the year of age.
Nobody keeps to a line. A child may grow about 1.5 times as fast as the lines do in their fastest year, because that
year differs from child to child (Tanner, Whitehouse and Takaishi 1966, doi 10.1136/adc.41.219.454: from memory,
10 cm a year at a boy's peak beside 6 to 7 in tables by age); the same factor the other way is the slow end.
"""

from __future__ import annotations

from itertools import accumulate, pairwise

from planner.job import BodySize

OWN_PACE = 1.5
"""A child's own pace over that of the tables, and the tables' over a slow child's; see above."""
STEP_MONTHS = 0.5
MOST_YEARS = 16.0
"""Nobody is followed for longer."""


def months_to_grow(body: BodySize, age_years: float, room_mm: float) -> tuple[float | None, float | None]:
    """Return the fewest and the most months until a dimension may have grown by ``room_mm``.

    ``age_years`` in whole years stands for any day of that year of life. None: the tables end before.
    """
    ages = (age_years, age_years + 1.0) if float(age_years).is_integer() else (age_years,)
    lines = [_line(body, column) for column in (1, 2)]
    fast = [_months(line, age, room_mm / OWN_PACE) for line in lines for age in ages]
    slow = [_months(line, age, room_mm * OWN_PACE) for line in lines for age in ages]
    known = [months for months in fast if months is not None]
    late = [months for months in slow if months is not None]
    return min(known, default=None), max(late) if len(late) == len(slow) else None


def _line(body: BodySize, column: int) -> list[tuple[float, float]]:
    """Return a percentile over age in years, never falling."""
    highest = accumulate((row[column] for row in body.child_mm), max)
    return [(row[0] + 0.5, mm) for row, mm in zip(body.child_mm, highest, strict=True)]


def _at(line: list[tuple[float, float]], age: float) -> float:
    """Return a line's value at an age, straight between its points; before and after them it goes on level."""
    if age <= line[0][0]:
        return line[0][1]
    for (a, low), (b, high) in pairwise(line):
        if age <= b:
            return low + (high - low) * (age - a) / (b - a)
    return line[-1][1]


def _months(line: list[tuple[float, float]], age: float, room_mm: float) -> float | None:
    """Return after how many months a line has risen by a length; None where it never does."""
    start_mm, months = _at(line, age), 0.0
    while _at(line, age + months / 12.0) - start_mm < room_mm:
        months += STEP_MONTHS
        if months > 12.0 * MOST_YEARS:
            return None
    return months
