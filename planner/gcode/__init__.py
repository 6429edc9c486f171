"""Program: a G-code program is measured from its motion and words, and compared with what the plan means.

1. ``measure(path, printer)`` gives a :class:`Measured`: layers, extents, filament, time, flow, temperatures.
2. ``audit(measured, meant)`` compares it with a plate; its ``matching.alike`` says how well it fits.
3. ``learnt(path, printer)`` gives the settings that a trusted program was made with.
"""

from planner.gcode.audit_program import Audit, audit
from planner.gcode.expected import Meant
from planner.gcode.learn import learnt
from planner.gcode.match import MeantPart
from planner.gcode.measure_program import Measured, measure

__all__ = [
    "Audit",
    "Meant",
    "MeantPart",
    "Measured",
    "audit",
    "learnt",
    "measure",
]
