"""Outlines on beds as arrays that compiled searches read and change."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


FIXED, OUT = -1, -2
"""Beds that are none: of outlines that lie on every bed and stay, and of those that lie on none."""


class State(NamedTuple):
    """Outlines k on beds; every array is changed in place."""

    ring: Floats
    """Corners of all outlines about their own middle, mm, (n, 2); outline k has those from ends[k] to ends[k + 1]."""
    ends: Ints
    poles: Floats
    """Inner circles (x, y, radius) likewise."""
    pole_ends: Ints
    size: Floats
    """Fourth root of the hull's area: the pair's product of these makes small outlines yield to large ones."""
    reach: Floats
    turns: Floats
    """Turns in rad that lay outline k along the bed's edges: aligned[k] + j pi / 2."""
    spots: Floats
    """Middle x, y in mm and turn in rad, (k, 3)."""
    beds: Ints
    at: Floats
    """Corners where they lie now."""
    poles_at: Floats
    boxes: Floats
    weights: Floats
    room: Floats
    """Width and depth of every bed."""
    steps: Ints
    """How many steps were taken, (1,): what the effort is counted by."""
