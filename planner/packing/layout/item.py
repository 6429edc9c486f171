"""What is to be packed, what was packed, and where a turned outline lies."""

from __future__ import annotations

from dataclasses import dataclass

import shapely
import shapely.affinity

from planner.packing.layout.outline import Ring, polygon
from planner.packing.layout.plate import Group, Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """Copies of one part in its pose; ``order`` is its risk order, lower is printed earlier.

    ``nests`` is true where a copy may lie in the opening of another part.
    """

    part: str
    copies: int
    rings: tuple[Ring, ...]
    group: Group
    order: int = 0
    height_mm: float = 0.0
    in_opening: bool = False
    """Whether a copy may lie in an opening of another part, where that saves a plate."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedPlate:
    """A full bed; ``fill`` is the outlines' area over the usable bed's."""

    group: Group
    placements: tuple[Placement, ...]
    fill: float
    printer: str = ""
    """The printer for whose bed it is laid out; empty: the only one there is."""
    joint: str = ""
    """The joint that its pieces make and nothing else lies on it: it is printed first; empty for other plates."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Packing:
    """All plates, and the copies that fit no bed: part, copy, reason."""

    plates: tuple[PackedPlate, ...]
    unplaced: tuple[tuple[str, int, str], ...]
    broken: tuple[frozenset[str], ...] = ()
    """Sets of parts that were to lie together and cannot: of several groups, or too much for one bed."""


def placed_outline(rings: tuple[Ring, ...], placement: Placement) -> shapely.Polygon:
    """Return an outline where a placement puts it: turned, then its box centred on (x, y)."""
    turned = shapely.affinity.rotate(polygon(rings), placement.turn_deg, origin=(0.0, 0.0))
    x0, y0, x1, y1 = turned.bounds
    moved: shapely.Polygon = shapely.affinity.translate(
        turned, placement.x_mm - (x0 + x1) / 2, placement.y_mm - (y0 + y1) / 2
    )
    return moved


def outline_box_mm(rings: tuple[Ring, ...], placement: Placement) -> tuple[float, float, float, float]:
    """Return the box of an outline at its place: x0, y0, x1, y1."""
    x0, y0, x1, y1 = placed_outline(rings, placement).bounds
    return float(x0), float(y0), float(x1), float(y1)
