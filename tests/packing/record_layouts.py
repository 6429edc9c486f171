"""The best known layouts of others (Gardeyn et al. 2025, arXiv 2509.13329) as placements of ours on a bed."""

from __future__ import annotations

from typing import Any

import shapely
import shapely.affinity

from planner.job import Bed
from planner.packing import Placement

Rings = tuple[tuple[tuple[float, float], ...], ...]


def record_places(layout: dict[str, Any]) -> tuple[dict[str, Rings], Bed, list[shapely.Polygon], list[Placement]]:
    """Return the outlines of a layout's items by name, a bed that it just fits on, its shapes, and their placements."""
    rings: dict[str, Rings] = {item: (tuple(map(tuple, ring)),) for item, ring in layout["items"].items()}
    bed = Bed(shape="rectangle", size_mm=(layout["length"] + 0.02, layout["height"] + 0.02), height_mm=1, margin_mm=0.0)
    shapes = [
        shapely.affinity.translate(
            shapely.affinity.rotate(shapely.Polygon(rings[p["item"]][0]), p["rot_deg"], origin=(0, 0)), p["x"], p["y"]
        )
        for p in layout["placements"]
    ]
    left, low = min(s.bounds[0] for s in shapes), min(s.bounds[1] for s in shapes)
    places = []
    for k, (shape, p) in enumerate(zip(shapes, layout["placements"], strict=True)):
        x0, y0, x1, y1 = shapely.affinity.translate(shape, -left, -low).bounds
        places.append(Placement(part=p["item"], copy=k, x_mm=(x0 + x1) / 2, y_mm=(y0 + y1) / 2, turn_deg=p["rot_deg"]))
    return rings, bed, shapes, places
