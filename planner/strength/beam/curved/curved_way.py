"""How sharply a part bends at a cut: the circle that its inner and its outer side go round, from cuts close by.

Both sides must bend the same way. A boss, a notch, or a fillet between straight legs bends one side alone, and a sharp
corner moves a side at once so that no circle fits it: they raise stress as notches do, which finite elements see, and
are no curve. What both sides tell is taken as their geometric mean, so that a curve fades as one side gets straight;
where the outer side is the sharper one, as in a hook that is deepest at its bend, the inner one's radius is taken.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Literal

import manifold3d
import numpy as np
import shapely
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.layers import shape_of
from planner.mesh import Solid
from planner.strength.beam.cut_forces import Cut, cut_at
from planner.strength.beam.flat_moments import polygons_of

Floats = NDArray[np.float64]
BESIDE = (2.0, 1.4, 1.0, 0.7, 0.5, 0.35, 0.25, 0.17, 0.12)
"""How far cuts lie beside one, as shares of its depth: the widest whose sides fit circles, as a mesh has flat faces."""
PLACES = np.linspace(-1.0, 1.0, 7)
STRAIGHT = 40.0
"""A radius of so many depths changes stress by under 1 % (h / (3 R) in a rectangle): that is straight."""
FITS_SHARE = 0.1
"""A side may lie off its circle by this share of how far it bends: more is a corner or a step; no source."""
LEANS = 0.7
"""Nothing is told where a cut leans by more, as a sine, against the radius through it; no source."""
INNER_LEAST = 0.1
"""The inner radius is at least this share of the depth: stress there grows without end as it goes to nothing."""
LEAST_RISE = 0.5
"""Flat faces may hide half of how far a side bends between three cuts; no source."""
WITHIN = 0.9
"""Cuts no farther off than this share of the inner radius: farther ones lie beyond the arc."""
KEPT_N = 256
"""So many ways are kept in memory."""
ALIKE = 1.35
"""Cuts close by are those of one limb where their areas differ by no more than so many times; no source."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Curve:
    """How a section's limb is curved.

    Parameters
    ----------
    inward
        Unit vector of the cut's plane towards the centre of curvature.
    centre_mm
        The centre, along ``inward`` from the origin of the plane.
    off_mm
        How far the centre lies off the plane.
    """

    inward: Floats
    centre_mm: float
    off_mm: float = 0.0

    def radius_mm(self, places_mm: Floats) -> Floats:
        """Return the radii (n,) of the fibres through places (n, 2) of the plane."""
        return np.asarray(np.hypot(self.centre_mm - places_mm @ self.inward, self.off_mm))


@dataclass(frozen=True, kw_only=True, eq=False)  # no slots: its body is turned once
class Limbs:
    """A part, cut at will beside the cuts of one way."""

    solid: Solid
    start_mm: Floats
    axes: Floats

    @cached_property
    def _turned(self) -> manifold3d.Manifold | None:
        """The body with the way as its height."""
        body = self.solid.manifold
        return None if body is None else body.transform(np.column_stack([self.axes, -self.axes @ self.start_mm]))

    @cached_property
    def _known(self) -> dict[bytes, Curve | None]:
        """What was told before, by the cut and its shape: it hangs on nothing that a part is printed of."""
        return {}

    def curve(self, cut: Cut, shape: shapely.Geometry) -> Curve | None:
        """Return how the limb of a cut is curved; None where it is straight, in several pieces or no curve."""
        key = cut.at_mm.tobytes() + shape.wkb
        if key not in self._known:
            self._known[key] = self._curve_at(cut, shape)
        return self._known[key]

    def _curve_at(self, cut: Cut, shape: shapely.Geometry) -> Curve | None:
        """Return the same, looked for."""
        own = polygons_of(shape)
        if self._turned is None or len(own) != 1:
            return None
        height_mm = float((cut.at_mm - self.start_mm) @ self.axes[2])
        deep_mm = own[0].area ** 0.5
        for share in BESIDE:
            reach_mm = share * deep_mm
            ends = [self._beside(own[0], height_mm + s * reach_mm) for s in (PLACES[0], PLACES[-1])]
            if ends[0] is None or ends[1] is None:
                continue
            if _straight(ends[0], own[0], ends[1], reach_mm):
                return None
            between = [own[0] if s == 0.0 else self._beside(own[0], height_mm + s * reach_mm) for s in PLACES[1:-1]]
            limb = [one for one in (ends[0], *between, ends[1]) if one is not None]
            found = _curve(limb, reach_mm) if len(limb) == len(PLACES) else False
            if found is not False:
                return found
        return None

    def _beside(self, own: shapely.Polygon, height_mm: float) -> shapely.Polygon | None:
        """Return the polygon of a cut close by that goes on from one; None where there is none."""
        assert self._turned is not None
        there = polygons_of(shape_of(self._turned.slice(height_mm)))
        one_alone = there[0] if len(there) == 1 else None
        most = one_alone or max(there, key=lambda one: one.intersection(own).area, default=None)
        alike = most is not None and most.intersects(own) and 1.0 / ALIKE < most.area / own.area < ALIKE
        return most if alike else None


@lru_cache(maxsize=KEPT_N)
def limbs_of(solid: Solid, way: tuple[Vec3, Vec3]) -> Limbs:
    """Return a part with what was told of the cuts of one way."""
    start, end = np.array(way[0]), np.array(way[1])
    return Limbs(solid=solid, start_mm=start, axes=cut_at(start, end - start).axes)


def _straight(before: shapely.Polygon, own: shapely.Polygon, beyond: shapely.Polygon, reach_mm: float) -> bool:
    """Return whether three cuts show a side that does not bend, or two that bend against each other."""
    centres = [np.array(one.centroid.coords[0]) for one in (before, own, beyond)]
    turn = centres[0] + centres[2] - 2.0 * centres[1]
    long = float(np.linalg.norm(turn))
    if long < 1e-9 * reach_mm:
        return True
    along = [shapely.get_coordinates(one) @ (turn / long) for one in (before, own, beyond)]
    deep_mm = float(np.ptp(along[1]))
    rises = [
        (side[0] + side[2]) / 2.0 - side[1] for side in zip(*((one.min(), one.max()) for one in along), strict=True)
    ]
    return bool(min(rises) < LEAST_RISE * reach_mm**2 / (2.0 * STRAIGHT * deep_mm))


def _curve(limb: list[shapely.Polygon], reach_mm: float) -> Curve | Literal[False] | None:
    """Return the curve of a limb from cuts side by side; None where it is straight, False where no circle fits."""
    middle = len(limb) // 2
    centres = np.array([one.centroid.coords[0] for one in limb])
    turn = centres[0] + centres[-1] - 2.0 * centres[middle]
    if float(np.linalg.norm(turn)) < 1e-9 * reach_mm:
        return None
    inward = turn / np.linalg.norm(turn)
    along = [shapely.get_coordinates(one) @ inward for one in limb]
    outer, inner = np.array([one.min() for one in along]), np.array([one.max() for one in along])
    deep_mm = float(inner[middle] - outer[middle])
    places = PLACES * reach_mm
    bends = [float(np.ptp(side - np.polyval(np.polyfit(places, side, 1), places))) for side in (outer, inner)]
    if min(bends) < reach_mm**2 / (2.0 * STRAIGHT * deep_mm):
        return None
    at, circles = float(centres[middle] @ inward), []
    for side in (outer, inner):
        off_mm, centre_mm, rest_mm = _circle(places, side)
        if rest_mm > FITS_SHARE * max(bends):
            return False
        if centre_mm <= side[middle]:
            return None  # one side bends in, the other out
        if side is inner and reach_mm > WITHIN * float(np.hypot(off_mm, centre_mm - side[middle])):
            return False
        circles.append((off_mm, centre_mm, float(np.hypot(off_mm, centre_mm - at))))
    off_mm, centre_mm, radius_mm = circles[1]
    sine = off_mm / radius_mm
    # The inner circle is the surer one, as it bends more over the same way; the outer side may go about its centre.
    if float(np.ptp(np.hypot(places - off_mm, outer - centre_mm))) > FITS_SHARE * max(bends):
        radius_mm = max(radius_mm, float(np.sqrt(radius_mm * circles[0][2])))
        sine = (sine + circles[0][0] / circles[0][2]) / 2.0
    if abs(sine) > LEANS or radius_mm > STRAIGHT * deep_mm:
        return None
    centre_mm = max(at + radius_mm * (1.0 - sine**2) ** 0.5, float(inner[middle]) + INNER_LEAST * deep_mm)
    return Curve(inward=inward, centre_mm=centre_mm, off_mm=abs(sine) * radius_mm)


def _circle(x_mm: Floats, y_mm: Floats) -> tuple[float, float, float]:
    """Return centre of the circle nearest to points, and how far they lie off it at most (Kåsa 1976, from memory)."""
    rows = np.column_stack([2.0 * x_mm, 2.0 * y_mm, np.ones(len(x_mm))])
    x, y, _ = np.linalg.lstsq(rows, x_mm**2 + y_mm**2, rcond=None)[0]
    radii = np.hypot(x_mm - x, y_mm - y)
    return float(x), float(y), float(np.abs(radii - radii.mean()).max())
