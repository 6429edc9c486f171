"""Plates: outlines and estimates become plates that hold, and a calendar for them.

1. ``pack(items, bed, ...)`` lays copies on beds with an engine made for it.
2. ``verify(plate, ...)`` proves each plate again from scratch.
3. ``schedule(plates, calendar, printer)`` finds their times.
4. ``write_plates(...)`` writes 3MF and STL.
"""

from planner.plates.plate import Group, Placement, Plate, Run

__all__ = [
    "Group",
    "Placement",
    "Plate",
    "Run",
]
