"""How long twist drills are: what reaches to the end of a bore from the chuck."""

from __future__ import annotations

from dataclasses import dataclass

SOURCE = "ISO 235 (jobber series) and ISO 494 (long series), lengths of twist drills; figures from memory"


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillLength:
    """Lengths in mm of twist drills up to a diameter: a jobber drill over all and its flutes, a long one's flutes."""

    up_to_mm: float
    whole_mm: float
    flutes_mm: float
    long_flutes_mm: float


_ROWS = (
    (1.06, 34, 12, 33),
    (1.32, 38, 16, 41),
    (1.50, 40, 18, 45),
    (1.70, 43, 20, 50),
    (1.90, 46, 22, 53),
    (2.12, 49, 24, 56),
    (2.36, 53, 27, 59),
    (2.65, 57, 30, 62),
    (3.00, 61, 33, 66),
    (3.35, 65, 36, 69),
    (3.75, 70, 39, 73),
    (4.25, 75, 43, 78),
    (4.75, 80, 47, 82),
    (5.30, 86, 52, 87),
    (6.00, 93, 57, 91),
    (6.70, 101, 63, 97),
    (7.50, 109, 69, 102),
    (8.50, 117, 75, 109),
    (9.50, 125, 81, 115),
    (10.60, 133, 87, 121),
    (11.80, 142, 94, 128),
    (13.20, 151, 101, 134),
)
DRILLS = tuple(
    DrillLength(up_to_mm=d, whole_mm=float(whole), flutes_mm=float(flutes), long_flutes_mm=float(long))
    for d, whole, flutes, long in _ROWS
)


def drill_length(diameter_mm: float) -> DrillLength:
    """Return the lengths of a drill; a wider one than the table has is at least as long as its last.

    >>> drill_length(4.2).flutes_mm
    43.0
    """
    return next((one for one in DRILLS if diameter_mm <= one.up_to_mm), DRILLS[-1])
