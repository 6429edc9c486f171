"""Numbers that stay on one line with their units."""

from __future__ import annotations

import re

NO_BREAK = "\u00a0"
UNIT = re.compile(r"(?<=\d) (?=(?:mm[²³]?|cm[²³]?|m|g|kg|N|s|min|h|mm/s|°C|%|×|EUR)(?![\w²³/])|×)|(?<=×) (?=\d)")
"""The blank between a number and its unit, and those round a multiplication sign (SI Brochure, 9th ed., 5.4.3)."""


def with_fixed_spaces(text: str) -> str:
    """Return a text in which no line ends between a number and its unit.

    >>> with_fixed_spaces("hang 4.1 kg for 60 s").split(" ") == ["hang", f"4.1{NO_BREAK}kg", "for", f"60{NO_BREAK}s"]
    True
    >>> with_fixed_spaces("2 steps").split(" ")
    ['2', 'steps']
    """
    return UNIT.sub(NO_BREAK, text)
