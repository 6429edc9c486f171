"""Program: a G-code program is measured from its motion and words, and compared with what the plan means.

1. ``measure(path, printer)`` gives a :class:`Measured`: layers, extents, filament, time, flow, temperatures.
2. ``audit(measured, meant)`` compares it with a plate; its ``matching.alike`` says how well it fits.
3. ``learnt(path, printer)`` gives the settings that a trusted program was made with.
"""

from planner.gcode.audit_program import Audit, Plate, audit, match_plate
from planner.gcode.expected import Expected, ExpectedPart
from planner.gcode.learn import learnt
from planner.gcode.measure_program import measure
from planner.gcode.measured import Measured

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
