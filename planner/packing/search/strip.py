"""Search: lay outlines into one strip as high as the bed, by an engine made for it.

The engine (spyrrow) turns outlines freely, knows no holes, and keeps its own separation from the strip's
edge too; so outlines come here grown by half the spacing, the bed likewise, and the engine's own is 0.
"""

from __future__ import annotations

from dataclasses import dataclass

import shapely
import shapely.affinity
import spyrrow

GROW_SIMPLIFY_MM = 0.05
"""A grown outline is grown a little more and then simplified by as much: fewer corners, never too small."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """One copy in the strip: its grown outline turned by ``turn_deg`` about the origin, then moved."""

    key: int
    turn_deg: float
    shift_mm: tuple[float, float]
    far_mm: float
    """Its far end along the strip."""


def grown(outline: shapely.Polygon, by_mm: float) -> shapely.Polygon:
    """Return the outer ring of an outline grown by a margin, with few corners."""
    shape = shapely.Polygon(outline.exterior).buffer(by_mm + GROW_SIMPLIFY_MM, quad_segs=4).simplify(GROW_SIMPLIFY_MM)
    return shapely.Polygon(shape.exterior)


def laid_in_strip(shapes: dict[int, shapely.Polygon], height_mm: float, *, seed: int, budget_s: int) -> list[Laid]:
    """Lay every shape into a strip of a height, as short as can be found in the time given.

    ``shapes`` are grown outlines by key; all are laid. Times are whole seconds, 1 at least.
    """
    items = [
        spyrrow.Item(str(key), [(float(x), float(y)) for x, y in list(shape.exterior.coords)[:-1]], 1, None)
        for key, shape in shapes.items()
    ]
    explore = max(1, round(0.75 * budget_s))  # the rest compresses: none of a single second
    config = spyrrow.StripPackingConfig(
        early_termination=True,
        total_computation_time=None,
        exploration_time=explore,
        compression_time=max(0, budget_s - explore),
        num_workers=1,  # one worker gives the same layout from the same seed wherever time does not end it
        seed=seed,
    )
    solution = spyrrow.StripPackingInstance("plate", height_mm, items).solve(config)
    return [_laid(shapes, placed) for placed in solution.placed_items]


def _laid(shapes: dict[int, shapely.Polygon], placed: spyrrow.PlacedItem) -> Laid:
    """Return one placed copy."""
    turned = shapely.affinity.rotate(shapes[int(placed.id)], placed.rotation, origin=(0.0, 0.0))
    x, y = placed.translation
    return Laid(key=int(placed.id), turn_deg=placed.rotation, shift_mm=(x, y), far_mm=float(turned.bounds[2]) + x)
