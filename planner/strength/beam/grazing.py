"""Cuts that run out through an end or a shoulder of a part: no sections of a beam, though they look like small ones.

A way from what holds a part to its load often leans against the part. A cut square to it then takes the end of the
part in half, where the whole of it carries. What such a cut would find is found by the next one inward, whole.
"""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
LEANS = 0.766
"""Faces count whose normal lies within 40 degrees of the way: with 45, the two legs of an angle would; no source."""
GRAZED_SHARE = 0.2
"""A cut runs out where so much of the side of a square of its size lies on such faces; no source."""


def end_faces(heights_mm: Floats, normals: Floats, areas_mm2: Floats) -> Floats:
    """Return corners (m, 3, 3) of the faces that a way leaves through, in the cut's axes; the last is the height."""
    units = normals[:, 2] / np.maximum(areas_mm2, 1e-12)
    return np.asarray(heights_mm[(np.abs(units) > LEANS) & (np.abs(units) < 1.0 - 1e-6)])


def runs_out(faces_mm: Floats, height_mm: float, shape: shapely.Geometry) -> bool:
    """Return whether a cut at a height runs along such faces for a part of its size that counts."""
    above = faces_mm[:, :, 2] > height_mm
    crossed = faces_mm[above.any(axis=1) & ~above.all(axis=1)]
    if not len(crossed):
        return False
    over = crossed[:, :, 2] > height_mm
    alone = np.where((over.sum(axis=1) == 1)[:, None], over, ~over).argmax(axis=1)
    rows = np.arange(len(crossed))
    tip = crossed[rows, alone]
    ends = []
    for step in (1, 2):
        other = crossed[rows, (alone + step) % 3]
        share = (height_mm - tip[:, 2]) / (other[:, 2] - tip[:, 2])
        ends.append(tip + share[:, None] * (other - tip))
    grazed_mm = float(np.linalg.norm((ends[1] - ends[0])[:, :2], axis=1).sum())
    return bool(grazed_mm > GRAZED_SHARE * shape.area**0.5)
