"""The machine's state: rows of words become moves, each with what was set while it ran.

Words as desktop printers use them stand beside ISO 6983's (all of them common practice, no source): E is filament,
M82 and M83 make it absolute or relative, M104 M109 M140 M190 set temperatures, M106 M107 the fan, M200 the filament's
diameter where E counts mm3, M204 the acceleration, M220 and M221 percents of feed and flow, T the tool.

Machines differ in two places, and a program may be meant for either kind:

- **G90 and G91 after M82 or M83.** ISO 6983 lets G90 and G91 rule every axis; some printers follow it for E as well,
  others let M82 and M83 alone rule E once one of them was given. ``E_BY_G`` says which is followed; ``E_DOUBT_N``
  counts the blocks where it matters.
- **G92 without a letter.** An error in RS-274; printers set every axis to zero. Zero it is here, and ``BARE_N`` counts
  where that moves the origin.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

(X0, Y0, Z0, X1, Y1, Z1, DE, FEED, ACCELERATION, NOZZLE, BED, FAN, DWELL) = range(13)
"""Columns of a move: from, to (mm), filament (mm), mm/s, mm/s2, temperatures (C), fan (0 to 1), seconds of rest."""
COLUMNS_N = 13
TOOLS_N = 8
(S_X, S_Y, S_Z, S_E, O_X, O_Y, O_Z, O_E, RELATIVE, UNIT, PLANE, MODE, S_FEED, S_ACC, S_BED, S_FAN) = range(16)
(FEED_SHARE, FLOW_SHARE, E_PER_MM, E_STATED, E_LAST, E_BY_G, TOOL) = range(16, 23)
(UNKNOWN, E_DOUBT_N, BARE_N, LOST_N) = range(23, 27)
S_NOZZLE = 27
STATE_N = S_NOZZLE + TOOLS_N
"""The state: place and origin (X Y Z E, mm); modes; what is set; counts of what was odd; a temperature each tool.

``E_STATED`` is 0 until M82 (1) or M83 (2); ``E_LAST`` is 1 where the last of M82, M83, G90 and G91 made E relative.
``LOST_N`` counts blocks with places or filament under a G word that is not known: what they do cannot be followed.
"""


def start_state(acceleration_mm_s2: float, *, e_by_g: bool = False) -> Floats:
    """Return the state at the start: absolute, mm, XY plane, nothing set."""
    state = np.zeros(STATE_N)
    state[[UNIT, FEED_SHARE, FLOW_SHARE, E_PER_MM]] = 1.0
    state[PLANE], state[S_ACC], state[E_BY_G] = 17, acceleration_mm_s2, e_by_g
    state[[S_FEED, S_BED]] = state[S_NOZZLE:] = np.nan
    return state
