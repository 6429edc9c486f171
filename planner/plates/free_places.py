"""Free places on a plate that is packed already: between its copies, and in the openings of large ones."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
import shapely.affinity

TURNS_DEG = tuple(15.0 * k for k in range(24))
TRIED_N = 240
"""Places tried at every turn in each free region, spread evenly over it."""
HAIR_MM = 0.01


def free_place(
    outline: shapely.Polygon,
    ground: shapely.Polygon,
    laid: Sequence[shapely.Polygon],
    spacing_mm: float,
    *,
    in_openings: bool,
) -> tuple[float, tuple[float, float]] | None:
    """Return turn (degrees about the origin) and shift (mm) that put an outline on a plate, or None.

    ``ground`` is the bed less its margins, ``laid`` the outlines that lie there. Where ``in_openings`` is false
    their holes count as matter. Holes are shadows' holes: nothing of the part lies above or below them.
    """
    solid = laid if in_openings else [shapely.Polygon(each.exterior) for each in laid]
    taken = shapely.union_all([each.buffer(spacing_mm + HAIR_MM, quad_segs=16) for each in solid])
    free = ground.difference(taken)
    if free.area < outline.area:
        return None
    for turn in TURNS_DEG:
        turned = shapely.affinity.rotate(outline, turn, origin=(0.0, 0.0))
        circle = shapely.maximum_inscribed_circle(turned)
        (x, y), reach = circle.coords[0], circle.length
        roomy = free.buffer(-max(reach - HAIR_MM, 0.0))
        for region in shapely.get_parts(roomy):
            for at in _tried(region):
                shift = float(at[0] - x), float(at[1] - y)
                if free.contains(shapely.affinity.translate(turned, *shift)):
                    return turn, shift
    return None


def _tried(region: shapely.Polygon) -> np.ndarray:
    """Return places in a region, (n, 2) in mm: its corners and a grid, nearest to the front left first."""
    if region.is_empty:
        return np.empty((0, 2))
    x0, y0, x1, y1 = region.bounds
    step = max(float(np.sqrt(region.area / TRIED_N)), 0.5)
    grid = np.array([(x, y) for x in np.arange(x0, x1 + step, step) for y in np.arange(y0, y1 + step, step)])
    inside = grid[shapely.contains_xy(region, grid)]
    corners = np.asarray(region.exterior.coords)[:-1]
    found = np.vstack([inside, corners[:: max(1, len(corners) // 60)]])
    return found[np.argsort(found.sum(axis=1), kind="stable")]
