"""Hexagonal pockets on the axes of bores: what they are drawn for is a nut."""

from __future__ import annotations

import numpy as np

from planner.job import StockSize
from planner.survey import Bore, Survey

HEXAGON = 6
"""Facets of a nut's pocket; its inscribed diameter is the width across flats."""
NUT_ROOM_MM = (-0.05, 0.8)
"""A pocket is drawn this much wider than its nut, across flats; common practice, no source."""
PARALLEL_COS, BESIDE_MM, APART_MM = 0.999, 0.2, 0.5
"""A pocket's axis is that of its bore within these, and it begins where the bore ends."""


def pockets_on(survey: Survey, bore: Bore) -> tuple[Bore, ...]:
    """Return the hexagonal pockets at the ends of a bore."""
    axis, centre = np.asarray(bore.axis), np.asarray(bore.centre_mm)
    found = []
    for pocket in (one for one in survey.possible_bores if one.facets_n == HEXAGON):
        way = np.asarray(pocket.centre_mm) - centre
        along = float(way @ axis)
        if (
            pocket.drawn_diameter_mm > bore.drawn_diameter_mm
            and abs(float(np.asarray(pocket.axis) @ axis)) > PARALLEL_COS
            and float(np.linalg.norm(way - along * axis)) < BESIDE_MM
            and abs(along) < (pocket.depth_mm + bore.depth_mm) / 2 + APART_MM
        ):
            found.append(pocket)
    return tuple(found)


def takes_nut(pocket: Bore, stock: StockSize) -> bool:
    """Return whether a pocket is drawn for a screw's nut."""
    if stock.nut_flats_mm is None:
        return False
    return NUT_ROOM_MM[0] <= pocket.diameter_mm - stock.nut_flats_mm.value <= NUT_ROOM_MM[1]
