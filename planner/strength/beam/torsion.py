"""Torsion of a section: its constant, and the greatest shear stress of a twisting moment.

A solid section by Saint-Venant's approximation J = A⁴ / (40 Ip) (Saint-Venant 1855, Mémoires des savants étrangers 14;
from memory), put right by the exact constants of rectangles (Timoshenko and Goodier, Theory of Elasticity, table of
rectangular bars; from memory), so that rectangles come out within 2 %. Thin open sections (L, T) are at most as stiff
as the strip of the same area and widest circle, J = beta A D². The greatest shear by the formula for solid sections in
Roark's Formulas for Stress and Strain, table 10.1 (from memory): within 5 % for rectangles and round bars; re-entrant
corners stay out. A wall that closes round a hole by Bredt's formulas (1896, from memory), which hold for thin walls.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely

from planner.strength.beam.flat_moments import moments_of, polygons_of

TOUCH_MM = 0.01
"""How near the widest circle in a section is found."""
SIDES = (1.0, 1.5, 2.0, 3.0, 5.0, 10.0, 100.0)
BETA = (0.1406, 0.196, 0.229, 0.263, 0.291, 0.313, 0.3312)
"""J = beta long short³ of rectangles by the ratio of their sides (Timoshenko and Goodier, from memory)."""
ROUND = math.pi / 4.0
"""Area of a circle as a share of the square about it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Torsion:
    """Torsion constant, and the greatest shear stress of 1 N mm."""

    constant_mm4: float
    shear_mpa_per_n_mm: float


def solid_torsion(polygon: shapely.Polygon) -> Torsion:
    """Return the torsion of one polygon: as a closed wall where it has a hole, else as a solid.

    >>> square = solid_torsion(shapely.box(0, 0, 1, 1))
    >>> round(square.constant_mm4, 3), round(square.shear_mpa_per_n_mm, 1)
    (0.141, 4.8)
    """
    if polygon.interiors:
        return wall_torsion(polygon)
    area = polygon.area
    moments = moments_of(polygon).about_centre_mm4
    wide = 2.0 * shapely.maximum_inscribed_circle(polygon, tolerance=max(TOUCH_MM, 0.01 * math.sqrt(area))).length
    sides = area / wide**2
    beta = float(np.interp(sides, SIDES, BETA))
    rectangle = sides**4 / (40.0 * (sides**3 + sides) / 12.0) / sides if sides > 1.0 else 0.15
    rounded = min(max((1.0 - sides) / (1.0 - ROUND), 0.0), 1.0)
    right = beta / rectangle * (1.0 - rounded) + 40.0 / (4.0 * math.pi**2) * rounded
    constant = right * area**4 / (40.0 * float(moments[0, 0] + moments[1, 1]))
    if sides > 1.0:
        constant = min(constant, beta * area * wide**2)
    slender = math.pi**2 * wide**4 / (16.0 * area**2)
    reach = wide / (1.0 + slender) * (1.0 + 0.15 * (slender - rounded))
    return Torsion(constant_mm4=constant, shear_mpa_per_n_mm=reach / constant)


def wall_torsion(polygon: shapely.Polygon) -> Torsion:
    """Return the torsion of a wall round a hole, as one of even thickness."""
    holes = [shapely.Polygon(ring) for ring in polygon.interiors]
    outside = shapely.Polygon(polygon.exterior)
    inside = max(holes, key=lambda hole: hole.area)
    middle_mm2 = (outside.area + inside.area) / 2.0
    long_mm = (outside.length + inside.length) / 2.0
    thick_mm = polygon.area / long_mm
    return Torsion(
        constant_mm4=4.0 * middle_mm2**2 * thick_mm / long_mm,
        shear_mpa_per_n_mm=1.0 / (2.0 * middle_mm2 * thick_mm),
    )


def together(whole: shapely.Geometry, core: shapely.Geometry, core_share: float) -> Torsion:
    """Return the torsion of a solid skin round a softer core: their constants add, each zone twists alike.

    A core as stiff as the skin gives the constant of the solid back; of a softer one, ``1 - core_share`` of its own is
    taken off, which is exact where the lines of Prandtl's stress function are alike, as in a round bar.
    """
    constant, greatest = 0.0, 0.0
    polygons = polygons_of(whole)
    for polygon in polygons:
        one = solid_torsion(polygon)
        inside = core if len(polygons) == 1 else core.intersection(polygon)
        hollow = sum(solid_torsion(part).constant_mm4 for part in polygons_of(inside))
        left = max(one.constant_mm4 - (1.0 - core_share) * hollow, 0.05 * one.constant_mm4)
        constant += left
        greatest = max(greatest, one.constant_mm4 * one.shear_mpa_per_n_mm)
    return Torsion(constant_mm4=constant, shear_mpa_per_n_mm=greatest / constant)
