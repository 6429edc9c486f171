"""What a mesh file's numbers can hold: lengths are rounded to it, so that no noise behind it decides a verdict.

Single precision (IEEE 754, as STL stores it) keeps seven digits: 0.00001 mm at 100 mm. A wall drawn as 1.5 mm reads as
1.4999999, and two lines of 0.45 mm at 60 % would not fit it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from planner.survey.survey import Bore, Walls

FILE_DIGITS = 4
"""Digits of a length in mm that are kept."""


def bores_as_filed(bores: Iterable[Bore]) -> tuple[Bore, ...]:
    """Return bores with their lengths rounded."""
    return tuple(
        replace(
            bore,
            diameter_mm=round(bore.diameter_mm, FILE_DIGITS),
            drawn_diameter_mm=round(bore.drawn_diameter_mm, FILE_DIGITS),
            depth_mm=round(bore.depth_mm, FILE_DIGITS),
            edge_wall_mm=None if bore.edge_wall_mm is None else round(bore.edge_wall_mm, FILE_DIGITS),
        )
        for bore in bores
    )


def walls_as_filed(walls: Walls) -> Walls:
    """Return walls with the thicknesses that rules judge rounded."""
    least, clear = (
        None if point is None else replace(point, thickness_mm=round(point.thickness_mm, FILE_DIGITS))
        for point in (walls.least, walls.least_clear)
    )
    places = tuple(
        replace(
            place,
            thickness_mm=round(place.thickness_mm, FILE_DIGITS),
            ways=tuple((round(thick, FILE_DIGITS), way) for thick, way in place.ways),
        )
        for place in walls.places
    )
    return replace(walls, least=least, least_clear=clear, places=places)
