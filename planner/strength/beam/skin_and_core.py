"""A section as it is printed: a solid skin of contours round a core of infill.

The core counts by the stiffness of an open cellular solid, E / Es = share² (Gibson and Ashby 1997, Cellular Solids,
chapter 5; bending of cell walls, the low bound; lines that run straight through can give up to the share itself). It
takes part in stiffness and is not judged: the skin lies outside it and is strained more.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.strength.beam.flat_moments import Moments, beyond_line, edges_of, moments_within, polygons_of
from planner.strength.beam.torsion import Torsion, together, twist_most_mpa

Floats = NDArray[np.float64]
FAR_MM = 1e4
"""Farther than any section reaches."""
EMPTY = shapely.Polygon()
LEAST_WIDE = 0.5
"""Width that shear flows through at least, as a share of the mean width: a thin round tube has 0.64; no source."""


def core_stiffness_share(infill_share: float) -> float:
    """Return the stiffness of infill as a share of the solid's (Gibson and Ashby 1997).

    >>> core_stiffness_share(0.5)
    0.25
    """
    return min(max(infill_share, 0.0), 1.0) ** 2


@dataclass(frozen=True, slots=True)
class Band:
    """What of a plane lies between two lines square to ``along``, a unit vector."""

    along: tuple[float, float]
    low_mm: float
    high_mm: float

    @staticmethod
    def of(along: Floats, low_mm: float, high_mm: float) -> Band:
        """Return the band along a unit vector (2,)."""
        return Band((float(along[0]), float(along[1])), low_mm, high_mm)

    @property
    def polygon(self) -> shapely.Polygon:
        """It as a rectangle that reaches farther than any section."""
        along, low, high = np.array(self.along), self.low_mm, self.high_mm
        across = np.array([-along[1], along[0]])
        corners = [(low, -FAR_MM), (high, -FAR_MM), (high, FAR_MM), (low, FAR_MM)]
        return shapely.Polygon([u * along + v * across for u, v in corners])


@dataclass(frozen=True, kw_only=True, eq=False)  # no slots: its moments are found once
class Zones:
    """A flat shape with its core; ``core_share`` is the core's stiffness as a share of the skin's."""

    whole: shapely.Geometry
    core: shapely.Geometry
    core_share: float
    _bands: dict[Band, Zones] = field(default_factory=dict, init=False, repr=False)
    _bare: dict[Band, Zones] = field(default_factory=dict, init=False, repr=False)
    _offs_mm: dict[bytes, float] = field(default_factory=dict, init=False, repr=False)
    """Many load cases press one section, at the same places: what it has there is found once."""
    _reaches_mm: dict[bytes, tuple[float, float]] = field(default_factory=dict, init=False, repr=False)

    def within(self, band: Band) -> Zones:
        """Return what of it lies in a band."""
        if band not in self._bands:
            core = band.polygon.intersection(self.core)
            self._bands[band] = Zones(whole=self.bare_within(band).whole, core=core, core_share=self.core_share)
        return self._bands[band]

    def bare_within(self, band: Band) -> Zones:
        """Return what of it lies in a band as if it had no core: most bands are only asked how far they reach."""
        if band not in self._bare:
            whole = band.polygon.intersection(self.whole)
            self._bare[band] = Zones(whole=whole, core=EMPTY, core_share=self.core_share)
        return self._bare[band]

    def reach_mm(self, way: Floats) -> tuple[float, float]:
        """Return how far it reaches along a vector of the plane, from and to."""
        key = way.tobytes()
        if key not in self._reaches_mm:
            along = self.points_mm @ way
            self._reaches_mm[key] = float(along.min()), float(along.max())
        return self._reaches_mm[key]

    def off_mm(self, at_mm: Floats, way: Floats) -> float:
        """Return how far it lies from the line through a place along a unit vector; 0 where that goes through it."""
        key = at_mm.tobytes() + way.tobytes()
        if key not in self._offs_mm:
            line = shapely.LineString([at_mm - FAR_MM * way, at_mm + FAR_MM * way])
            self._offs_mm[key] = float(self.whole.distance(line))
        return self._offs_mm[key]

    @cached_property
    def across_mm(self) -> float:
        """The diagonal of the box about it."""
        low_x, low_y, high_x, high_y = self.whole.bounds
        return float(np.hypot(high_x - low_x, high_y - low_y))

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
    def twist_most_mpa(self) -> float:
        """The shear that 1 N mm surely is not over: told in a tenth of the time."""
        low_mm, high_mm = self.reach_mm(self.ways[0])
        return twist_most_mpa(self.whole, self.core, high_mm - low_mm)

    def twist_mpa(self, twist_n_mm: float, least_mpa: float = 0.0) -> float:
        """Return the greatest shear of torsion; none where it surely is under ``least_mpa``."""
        if twist_n_mm == 0.0 or abs(twist_n_mm) * self.twist_most_mpa < least_mpa:
            return 0.0
        return twist_n_mm * self.torsion.shear_mpa_per_n_mm

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
