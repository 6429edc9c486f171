"""Plates: outlines become plates that hold.

1. ``outline_of(posed)`` gives a part's shadow; ``pack(items, bed=...)`` lays copies on beds.
2. ``verify(plates, items, bed=...)`` proves each plate again from scratch.
3. ``write_plates(folder, plates, posed)`` writes 3MF and STL.
"""

from planner.plates.alone import lies_alone
from planner.plates.batch import pack
from planner.plates.in_turn import InTurn
from planner.plates.item import Item, PackedPlate, Packing, outline_box_mm, placed_outline
from planner.plates.outline import outline_of
from planner.plates.plate import Group, Placement, Plate, Run, counted
from planner.plates.refit import refitted
from planner.plates.rules import NO_RULES, Rules
from planner.plates.verify import verify, verify_plate
from planner.plates.verify_turns import turn_faults
from planner.plates.write import manifest, plate_stem, write_plates

__all__ = [
    "NO_RULES",
    "Group",
    "InTurn",
    "Item",
    "PackedPlate",
    "Packing",
    "Placement",
    "Plate",
    "Rules",
    "Run",
    "counted",
    "lies_alone",
    "manifest",
    "outline_box_mm",
    "outline_of",
    "pack",
    "placed_outline",
    "plate_stem",
    "refitted",
    "turn_faults",
    "verify",
    "verify_plate",
    "write_plates",
]
