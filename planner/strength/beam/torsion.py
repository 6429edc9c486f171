"""Torsion of a printed section: its constant, and the shear along its edge.

Prandtl's stress function, solved along the edge (:mod:`planner.strength.beam.twist.edge_shear`): bars with any holes
and walls of any thickness. At a sharp inner corner it has no end; there it is taken as at the widest circle near by, by
the formula for solid sections in Roark's Formulas for Stress and Strain, table 10.1 (from memory): what a fillet adds
is told with the notches.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.polygon import orient

from planner.strength.beam.flat_moments import edges_of, polygons_of
from planner.strength.beam.twist.edge_shear import EdgeShear, edge_shear

Floats = NDArray[np.float64]
TOUCH_MM = 0.01
"""How near the widest circle in a section is found."""
INNER = -0.5
"""Sine of the turn of an edge from which it is an inner corner: 30 degrees; smaller ones go round a bore."""
LEAST_SHARE = 0.05
"""A skin without its core has at least so much of the whole constant; no source."""
SLOPE_MOST = 2.0
"""What twists a section shears it by no more than so many times its thin side over its constant."""
CORE_PIECES_N = (48, 96)
"""The edge of a core is in so many pieces, from and to: its constant within 0.1 %, but where it is thin."""
KEPT_N = 1024
"""So many sections are kept: each is asked again at every scale and under every load."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Torsion:
    """What 1 N mm does to a section.

    Parameters
    ----------
    constant_mm4
        The torsion constant.
    shear_mpa_per_n_mm
        The greatest shear.
    places_mm, edge_mpa_per_n_mm
        Places all along the edge (n, 2), and the shear there (n, 2).
    """

    constant_mm4: float
    shear_mpa_per_n_mm: float
    places_mm: Floats
    edge_mpa_per_n_mm: Floats


def solid_torsion(polygon: shapely.Polygon) -> Torsion:
    """Return the torsion of one polygon, with its holes.

    >>> square = solid_torsion(shapely.box(0, 0, 1, 1))
    >>> round(square.constant_mm4, 3), round(square.shear_mpa_per_n_mm, 1)
    (0.141, 4.8)
    """
    return _solid_torsion(polygon.wkb)


@lru_cache(maxsize=KEPT_N)
def _solid_torsion(wkb: bytes) -> Torsion:
    """Return the torsion of a polygon that is told as bytes."""
    polygon = shapely.from_wkb(wkb)
    found = edge_shear(polygon)
    shear = found.shear_mpa
    inner = _inner_corners_mm(polygon)
    if len(inner):
        most = _widest_mpa(polygon, found)
        near = np.linalg.norm(found.places_mm[:, None] - inner[None], axis=2).min(axis=1)
        size = np.linalg.norm(shear, axis=1)
        over = (size > most) & (near < 2.0 * polygon.area / polygon.length)
        shear = shear * np.where(over, most / np.maximum(size, 1e-300), 1.0)[:, None]
    return Torsion(
        constant_mm4=found.constant_mm4,
        shear_mpa_per_n_mm=float(np.linalg.norm(shear, axis=1).max()),
        places_mm=found.places_mm,
        edge_mpa_per_n_mm=shear,
    )


@lru_cache(maxsize=KEPT_N)
def _core_constant_mm4(wkb: bytes) -> float:
    """Return the constant of a polygon that is told as bytes: no more is asked of a core, and that stands with less."""
    return edge_shear(shapely.from_wkb(wkb), *CORE_PIECES_N).constant_mm4


def _inner_corners_mm(polygon: shapely.Polygon) -> Floats:
    """Return the sharp inner corners of a polygon (n, 2)."""
    edges = edges_of(orient(polygon))
    ways = edges[:, 1] - edges[:, 0]
    ways /= np.maximum(np.linalg.norm(ways, axis=1), 1e-12)[:, None]
    after = np.roll(ways, -1, axis=0)  # where one ring ends and the next begins, their ends do not meet
    meets = np.abs(np.roll(edges[:, 0], -1, axis=0) - edges[:, 1]).max(axis=1) < 1e-9
    return np.asarray(edges[meets & (ways[:, 0] * after[:, 1] - ways[:, 1] * after[:, 0] < INNER), 1])


def _widest_mpa(polygon: shapely.Polygon, found: EdgeShear) -> float:
    """Return the shear at the widest circle in a section (Roark)."""
    touch_mm = max(TOUCH_MM, 0.01 * math.sqrt(polygon.area))
    wide = 2.0 * shapely.maximum_inscribed_circle(polygon, tolerance=touch_mm).length
    slender = math.pi**2 * wide**4 / (16.0 * polygon.area**2)
    return float(wide / (1.0 + slender) * (1.0 + 0.15 * slender) / found.constant_mm4)


def twist_most_mpa(whole: shapely.Geometry, core: shapely.Geometry, thin_mm: float) -> float:
    """Return the shear that 1 N mm surely is not over; ``thin_mm`` is the thin side of the box about the whole.

    A constant is no less than a third of the cube of the area over the square of the edge (Pólya 1960, Journal of the
    Indian Mathematical Society 24, from memory), a hole slit open to the outside. So is that of the skin alone, or half
    of Bredt's for a closed one about its core; so is Bredt's for as much of a wall as is nowhere thinner than to the
    next hole. No slope of Prandtl's function is over the thickness of a strip, which
    is its greatest; a small hole doubles it (Timoshenko and Goodier, from memory).
    """
    polygons, cores = polygons_of(whole), polygons_of(core)
    skin_mm2 = whole.area - core.area
    slits_n = len(cores) + sum(len(one.interiors) for one in polygons)
    round_mm = whole.length + core.length
    constant = skin_mm2**3 / (3.0 * (round_mm + 2.0 * slits_n * thin_mm) ** 2)
    if len(polygons) == len(cores) == 1:
        constant = max(constant, 2.0 * core.area**2 * skin_mm2 / (round_mm / 2.0) ** 2)
    elif len(polygons) == 1 and polygons[0].interiors:
        outside, holes = polygons[0].exterior, polygons[0].interiors
        wall_mm = min(outside.distance(hole) for hole in holes)
        within_mm2 = shapely.Polygon(outside).area - min(outside.length * wall_mm, polygons[0].area)
        constant = max(constant, 0.0 if cores else 4.0 * within_mm2**2 * wall_mm / outside.length)
    return SLOPE_MOST * thin_mm / constant if constant > 0.0 else math.inf


def together(whole: shapely.Geometry, core: shapely.Geometry, core_share: float) -> Torsion:
    """Return the torsion of a solid skin round a softer core: their constants add, each zone twists alike.

    A core as stiff as the skin gives the constant of the solid back; of a softer one, ``1 - core_share`` of its own is
    taken off, which is exact where the lines of Prandtl's stress function are alike, as in a round bar.
    """
    constant, places, edges = 0.0, [], []
    polygons = polygons_of(whole)
    for polygon in polygons:
        one = solid_torsion(polygon)
        inside = core if len(polygons) == 1 else core.intersection(polygon)
        hollow = sum(_core_constant_mm4(part.wkb) for part in polygons_of(inside))
        left = max(one.constant_mm4 - (1.0 - core_share) * hollow, LEAST_SHARE * one.constant_mm4)
        constant += left
        places.append(one.places_mm)
        edges.append(one.constant_mm4 * one.edge_mpa_per_n_mm)
    shear = np.concatenate(edges) / constant
    return Torsion(
        constant_mm4=constant,
        shear_mpa_per_n_mm=float(np.linalg.norm(shear, axis=1).max()),
        places_mm=np.concatenate(places),
        edge_mpa_per_n_mm=shear,
    )
