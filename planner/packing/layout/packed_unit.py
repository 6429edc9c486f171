"""Units: what the search moves as one, a copy alone or a part with small ones in its openings."""

from __future__ import annotations

import math
from dataclasses import dataclass

import shapely
import shapely.affinity

Copy = tuple[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place: turned counter-clockwise about the outline's origin, then moved."""

    turn_deg: float
    shift_mm: tuple[float, float]

    def after(self, other: Spot) -> Spot:
        """Return where something at ``other`` lies in the frame of this spot."""
        angle = math.radians(self.turn_deg)
        x, y = other.shift_mm
        return Spot(
            turn_deg=self.turn_deg + other.turn_deg,
            shift_mm=(
                self.shift_mm[0] + x * math.cos(angle) - y * math.sin(angle),
                self.shift_mm[1] + x * math.sin(angle) + y * math.cos(angle),
            ),
        )


HERE = Spot(turn_deg=0.0, shift_mm=(0.0, 0.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """Copies that keep their places to each other; ``shape`` is the outer outline with brim, no spacing added.

    Units of one ``kind`` look alike: where one found no place, the next will not either.
    """

    copies: tuple[tuple[Copy, Spot], ...]
    shape: shapely.Polygon
    kind: str
    order: int
    bundle: int | None = None
    """Units of one bundle lie on one plate."""

    @property
    def area_mm2(self) -> float:
        """Area within the outer outline."""
        return float(self.shape.area)


Layout = dict[int, Spot]
"""One plate: a spot for some units by their index."""


def at_spot(shape: shapely.Polygon, spot: Spot) -> shapely.Polygon:
    """Return a shape at a spot."""
    turned = shapely.affinity.rotate(shape, spot.turn_deg, origin=(0.0, 0.0))
    moved: shapely.Polygon = shapely.affinity.translate(turned, *spot.shift_mm)
    return moved
