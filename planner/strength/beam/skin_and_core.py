"""A section as it is printed: a solid skin of contours round a core of infill.

The core counts by the stiffness of an open cellular solid, E / Es = share² (Gibson and Ashby 1997, Cellular Solids,
chapter 5; bending of cell walls, the low bound; lines that run straight through can give up to the share itself). It
takes part in stiffness and is not judged: the skin lies outside it and is strained more.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.strength.beam.flat_moments import Moments, beyond_line, edges_of, moments_within, polygons_of
from planner.strength.beam.torsion import Torsion, together

Floats = NDArray[np.float64]
LEAST_WIDE = 0.5
"""Width that shear flows through at least, as a share of the mean width: a thin round tube has 0.64; no source."""


def core_stiffness_share(infill_share: float) -> float:
    """Return the stiffness of infill as a share of the solid's (Gibson and Ashby 1997).

    >>> core_stiffness_share(0.5)
    0.25
    """
    return min(max(infill_share, 0.0), 1.0) ** 2


@dataclass(frozen=True, kw_only=True, eq=False)  # no slots: its moments are found once
class Zones:
    """A flat shape with its core; ``core_share`` is the core's stiffness as a share of the skin's."""

    whole: shapely.Geometry
    core: shapely.Geometry
    core_share: float

    @cached_property
    def moments(self) -> Moments:
        """Moments with the core counted by its stiffness."""
        whole, core = (moments_within(edges) for edges in self.edges_mm)
        return whole.plus(core, self.core_share - 1.0)

    @cached_property
    def edges_mm(self) -> tuple[Floats, Floats]:
        """The edges of the whole and of the core."""
        return edges_of(self.whole), edges_of(self.core)

    @cached_property
    def torsion(self) -> Torsion:
        """How it twists."""
        return together(self.whole, self.core, self.core_share)

    @cached_property
    def points_mm(self) -> Floats:
        """All corners of the whole (n, 2), a ring's first one again as its last."""
        return np.asarray(shapely.get_coordinates(self.whole))

    @cached_property
    def ways(self) -> Floats:
        """The two directions of the narrowest box about the whole, the thin one first."""
        box = shapely.oriented_envelope(self.whole)
        corners = np.asarray(box.exterior.coords) if isinstance(box, shapely.Polygon) else np.eye(3)[:, :2]
        sides = np.diff(corners[:3], axis=0)
        long = np.linalg.norm(sides, axis=1)
        units = sides / np.maximum(long, 1e-12)[:, None]
        return np.asarray(units[np.argsort(long)])

    @cached_property
    def corners_mm(self) -> Floats:
        """Corners of its hull: stress that rises straight is greatest at one of them."""
        hull = shapely.convex_hull(self.whole)
        return np.asarray(hull.exterior.coords)[:-1] if isinstance(hull, shapely.Polygon) else np.zeros((0, 2))

    def shear_mpa_per_n(self, way: Floats) -> float:
        """Return the shear stress in the plane through the centroid for 1 N along a unit vector of the plane.

        Q / (I b) (Jourawski 1856, textbook): 1.5 / A for a rectangle, 2 / A for a thin round tube. Where the centroid
        lies in a bore, b is at least half the mean width.
        """
        centre, less = self.moments.centre_mm, self.core_share - 1.0
        levers, wides = zip(*(beyond_line(edges, centre, way) for edges in self.edges_mm), strict=True)
        lever, wide = levers[0] + less * levers[1], wides[0] + less * wides[1]
        reach = self.edges_mm[0][:, 0] @ way
        wide = max(wide, LEAST_WIDE * self.moments.area_mm2 / float(np.ptp(reach)))
        return float(abs(lever)) / (float(way @ self.moments.about_centre_mm4 @ way) * float(wide))


def zones_of(whole: shapely.Geometry, skin_mm: float, infill_share: float) -> Zones:
    """Return a section with a skin of some thickness all round, also at holes, and what is left as its core."""
    core = shapely.union_all(polygons_of(shapely.buffer(whole, -skin_mm, join_style="mitre")))
    return Zones(whole=whole, core=core, core_share=core_stiffness_share(infill_share))
