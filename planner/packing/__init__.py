"""Packing: outlines become plates, each checked again from scratch.

1. ``outline_of(posed)`` gives a part's shadow; ``pack(items, bed=...)`` lays copies on beds.
2. ``verify(plates, items, bed=...)`` proves each plate again from scratch.
3. ``write_plates(folder, plates, posed)`` writes 3MF and STL.
"""

from planner.packing.files.file_names import file_word, taken
from planner.packing.files.plan_manifest import list_anew, manifest
from planner.packing.files.plate_files import plate_stem, write_plates
from planner.packing.layout.item import Item, PackedPlate, Packing, outline_box_mm, placed_outline
from planner.packing.layout.one_by_one import InTurn
from planner.packing.layout.outline import outline_of
from planner.packing.layout.packed_groups import pack
from planner.packing.layout.plate import Group, Placement, Plate, Run, counted
from planner.packing.layout.sharing_rules import NO_RULES, Rules
from planner.packing.proof.verify import verify, verify_plate
from planner.packing.proof.verify_one_by_one import turn_faults
from planner.packing.search.lone_parts import lies_alone
from planner.packing.search.refit import refitted
from planner.whole_folder import MANIFEST, untouched_files

__all__ = [
    "MANIFEST",
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
    "file_word",
    "lies_alone",
    "list_anew",
    "manifest",
    "outline_box_mm",
    "outline_of",
    "pack",
    "placed_outline",
    "plate_stem",
    "refitted",
    "taken",
    "turn_faults",
    "untouched_files",
    "verify",
    "verify_plate",
    "write_plates",
]
