"""Numbers as a person writes them into settings: rounded to a usual step, and never past the limit that they keep."""

from __future__ import annotations

import math

STEPS = (("_mm_s2", 10.0), ("_mm_s", 1.0), ("_mm", 0.01), ("_percent", 1.0), ("_c", 1.0), ("_deg", 1.0), ("_s", 1.0))
"""By the end of a setting's name; what fits none of them is a count."""


def step_of(key: str) -> float:
    """Return the usual step of a setting, by its unit.

    >>> step_of("infill_speed_mm_s"), step_of("line_width_mm"), step_of("contours_n")
    (1.0, 0.01, 1.0)
    """
    return next((step for end, step in STEPS if key.endswith(end)), 1.0)


def tidy_down(value: float, step: float) -> float:
    """Return the highest multiple of a step that is no higher; the value itself where that would be nothing.

    >>> tidy_down(135.117, 1.0), tidy_down(0.4, 1.0), tidy_down(0.32, 0.01)
    (135.0, 0.4, 0.32)
    """
    found = round(math.floor(value / step + 1e-9) * step, 6)
    return found if found > 0.0 or value <= 0.0 else value


def tidy_up(value: float, step: float) -> float:
    """Return the lowest multiple of a step that is no lower.

    >>> tidy_up(191.6, 1.0), tidy_up(0.57, 0.01)
    (192.0, 0.57)
    """
    return round(math.ceil(value / step - 1e-9) * step, 6)
