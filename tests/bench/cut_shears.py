"""Benches of strength: the shear of a cut from sums over its edges, against cutting its shape in two."""

from __future__ import annotations

import time

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.strength.beam.flat_moments import beyond_line, edges_of, moments_of

Floats = NDArray[np.float64]
WAYS_N = 400


def shear_of_cuts() -> dict[str, object]:
    """Time the first moment and the width beyond 400 lines across a plate with nine bores; both must agree."""
    bores = [shapely.Point(10.0 * x, 10.0 * y).buffer(3.0, quad_segs=16) for x in range(3) for y in range(3)]
    plate = shapely.box(-6.0, -6.0, 26.0, 26.0).difference(shapely.union_all(bores))
    at_mm = np.array([9.3, 8.1])
    ways = [np.array([np.cos(turn), np.sin(turn)]) for turn in np.linspace(0.0, 6.2, WAYS_N)]

    begun = time.process_time()
    edges = edges_of(plate)
    ours = [beyond_line(edges, at_mm, way) for way in ways]
    fast = time.process_time() - begun
    begun = time.process_time()
    theirs = [cut_in_two(plate, at_mm, way) for way in ways]
    slow = time.process_time() - begun
    if not np.allclose(ours, theirs, rtol=1e-6):
        raise SystemExit("first moments or widths differ")
    return {
        "name": "shear of a cut",
        "ours_s": fast,
        "peer": "the shape cut in two by shapely",
        "peer_s": slow,
        "ratio": slow / fast,
        "size": f"{WAYS_N} lines across {len(edges)} edges",
    }


def cut_in_two(shape: shapely.Geometry, at_mm: Floats, way: Floats) -> tuple[float, float]:
    """Return the first moment of what lies beyond a line, and how long the line lies in the shape."""
    across = 100.0 * np.array([-way[1], way[0]])
    low, high = at_mm - across, at_mm + across
    upper = moments_of(shape.intersection(shapely.Polygon([low, high, high + 100.0 * way, low + 100.0 * way])))
    lever = float((upper.first_mm3 - upper.area_mm2 * at_mm) @ way)
    return lever, float(shape.intersection(shapely.LineString([low, high])).length)


STRENGTH_BENCHES = {"shear": shear_of_cuts}
