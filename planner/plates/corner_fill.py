"""A plain search for beds that a strip cannot describe: each copy at the nearest free place to the front left."""

from __future__ import annotations

import numpy as np
import shapely
import shapely.affinity

TURNS_DEG = (0.0, 90.0, 45.0, 135.0, 22.5, 67.5, 112.5, 157.5)
STEP_MM = 4.0


def filled_bed(
    shapes: dict[int, shapely.Polygon], bed: shapely.Polygon
) -> dict[int, tuple[float, tuple[float, float]]]:
    """Return turn and shift of every shape that found a place on one bed, largest first.

    Shapes and bed are grown by the same margin; a place is free where the shape lies within the bed and
    touches nothing laid before.
    """
    taken: list[shapely.Polygon] = []
    found: dict[int, tuple[float, tuple[float, float]]] = {}
    for key, shape in sorted(shapes.items(), key=lambda item: (-item[1].area, item[0])):
        place = _place(shape, bed, taken)
        if place is not None:
            turn, shift, laid = place
            found[key] = (turn, shift)
            taken.append(laid)
    return found


def _place(
    shape: shapely.Polygon, bed: shapely.Polygon, taken: list[shapely.Polygon]
) -> tuple[float, tuple[float, float], shapely.Polygon] | None:
    """Return the first free place over all turns, nearest to the front left."""
    x0, y0, x1, y1 = bed.bounds
    best: tuple[float, float, tuple[float, float], shapely.Polygon] | None = None
    obstacles = shapely.union_all(taken) if taken else shapely.Polygon()
    shapely.prepare(bed)
    shapely.prepare(obstacles)
    for turn in TURNS_DEG:
        turned = shapely.affinity.rotate(shape, turn, origin=(0.0, 0.0))
        a, b, c, d = turned.bounds
        if c - a > x1 - x0 or d - b > y1 - y0:
            continue
        shifts_x = np.append(np.arange(x0 - a, x1 - c, STEP_MM), x1 - c)
        shifts_y = np.append(np.arange(y0 - b, y1 - d, STEP_MM), y1 - d)
        for total, x, y in sorted((float(x + y), float(x), float(y)) for x in shifts_x for y in shifts_y):
            if best is not None and total >= best[0]:
                break
            moved = shapely.affinity.translate(turned, x, y)
            if bed.covers(moved) and not obstacles.intersects(moved):
                best = (total, turn, (x, y), moved)
                break
    return None if best is None else (best[1], best[2], best[3])
