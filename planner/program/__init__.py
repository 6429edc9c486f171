"""Program: a G-code program is measured from its motion and words, and compared with what the plan means.

1. ``measure(path, printer)`` gives a :class:`Measured`: layers, extents, filament, time, flow, temperatures.
2. ``audit(measured, meant)`` compares it with a plate; its ``matching.alike`` says how well it fits.
3. ``learnt(path, printer)`` gives the settings that a trusted program was made with.
"""

from planner.program.audit import Audit, audit
from planner.program.learn import Learnt, learnt
from planner.program.match import MeantPart
from planner.program.meant import Meant
from planner.program.measure import Measured, measure

__all__ = ["Audit", "Learnt", "Meant", "MeantPart", "Measured", "audit", "learnt", "measure"]
