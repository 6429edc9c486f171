"""Layers: a solid in its pose becomes sections, lines, seconds and grams.

1. ``estimate_part(solid, settings=..., printer=..., material=...)`` gives a :class:`PartEstimate` for one copy.
2. ``estimate_parts(parts)`` does so for many parts, on all cores where that pays.
3. ``plate_duration_s(estimates, ...)`` adds the copies on one plate, layer by layer.
4. ``mass_g(volume, material)`` weighs what is laid.
5. ``rough_estimate(solid, ...)`` weighs one pose against another, in a tenth of a second.
6. ``held_faces(solid, settings)`` tells which faces lie on support, and which bridge.
"""

from planner.layers.estimate import estimate_part, layer_sums_s, mass_g, plate_duration_s, plate_kinds_s
from planner.layers.head_motion import move_times_s
from planner.layers.held_faces import FaceKind, held_faces
from planner.layers.layer_records import LINE_KINDS, ZERO, Amount, PartEstimate
from planner.layers.lines.bead import bead_area_mm2, pitch_mm
from planner.layers.lines.laid_lines import laid_layers
from planner.layers.lines.section import Section, shape_of
from planner.layers.lines.support import Opening
from planner.layers.part_pool import PosedPart, estimate_parts
from planner.layers.rough_estimate import RoughEstimate, rough_estimate

__all__ = [
    "LINE_KINDS",
    "ZERO",
    "Amount",
    "FaceKind",
    "Opening",
    "PartEstimate",
    "PosedPart",
    "RoughEstimate",
    "Section",
    "bead_area_mm2",
    "estimate_part",
    "estimate_parts",
    "held_faces",
    "laid_layers",
    "layer_sums_s",
    "mass_g",
    "move_times_s",
    "pitch_mm",
    "plate_duration_s",
    "plate_kinds_s",
    "rough_estimate",
    "shape_of",
]
