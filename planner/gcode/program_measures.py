"""The measures of a program, and what of it can be read in two ways."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.gcode.strokes import Strokes

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubts:
    """What machines may read in two ways: blocks each, and how this reading was chosen.

    ``e_blocks_n`` name E where M82 or M83 and a later G90 or G91 disagree; ``e_by_g`` says that G90 and G91 were
    followed, because the other reading lays beads of no sensible size. ``bare_n`` G92 without a letter moved the
    origin; ``lost_n`` blocks name places under a G word that is not known.
    """

    e_blocks_n: int = 0
    e_by_g: bool = False
    bare_n: int = 0
    lost_n: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """Measures of a program. Lengths mm, times s, volumes mm3; ``low_mm``, ``high_mm`` of bead centre lines.

    ``heights_mm`` (k,) are those at which filament was laid, with its ``volumes_mm3`` (k,); ``nozzle_c``, ``bed_c``
    map each temperature set to the volume laid at it, minus infinity where none had been set.
    """

    duration_s: float
    filament_mm: float
    deposited_mm3: float
    low_mm: Floats
    high_mm: Floats
    rim_mm: Floats
    """Corners (n, 2) of the convex hull of all that is laid, seen from above."""
    heights_mm: Floats
    volumes_mm3: Floats
    spiral_turns_n: float
    peak_flow_mm3_s: float
    nozzle_c: dict[float, float]
    bed_c: dict[float, float]
    moves_n: int
    unknown_n: int
    fan_mm3: Floats
    """Share of the fan times the volume laid with it (k,), at each of ``heights_mm``."""
    reach_mm: Floats
    """Least and greatest place (2, 3) that the head is sent to, travel included."""
    struck_mm: Floats
    """How deep the nozzle runs below what stands in its way, and where (x, y, z): the worst of it, 0 for nowhere."""
    strokes: Strokes
    doubts: Doubts

    @property
    def layers_n(self) -> int:
        """Number of layers: heights, or turns of a spiral that climbs all the time."""
        return round(self.spiral_turns_n) if self.spiral_turns_n > 0 else len(self.heights_mm)

    @property
    def size_mm(self) -> Floats:
        """Extents of the bead centre lines."""
        return self.high_mm - self.low_mm
