"""Gcode: a program is measured from its motion and words, and compared with what the plan expects.

1. ``measure(path, printer)`` gives a :class:`Measured`: layers, extents, filament, time, flow, temperatures, strokes.
2. ``match_plate(measured, expected)`` finds which piece is which part; ``matching.alike_share`` says how well it fits.
3. ``audit(measured, expected)`` compares every copy layer by layer, and the program with machine and settings.
4. ``learnt(path, printer)`` gives the settings that a trusted program was made with.
"""

from planner.gcode.audit_program import Audit, Plate, audit, match_plate
from planner.gcode.expected import Expected, ExpectedPart
from planner.gcode.learn import learnt
from planner.gcode.measure_program import measure
from planner.gcode.program_measures import Measured

__all__ = [
    "Audit",
    "Expected",
    "ExpectedPart",
    "Measured",
    "Plate",
    "audit",
    "learnt",
    "match_plate",
    "measure",
]
