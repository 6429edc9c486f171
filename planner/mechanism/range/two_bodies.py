"""Two bodies that move on each other: whether they meet, how near they come, and how they stand at rest."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import manifold3d
import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mechanism.places.frame import STILL, Frame
from planner.mechanism.range.nearness.surfaces import Surface, surface_gap_mm, surface_of

SEARCH_MM = 1.0
"""Gaps on the way that is needed are looked for so far; what is farther away is free."""
AT_REST = 0.98
"""Bodies as near as at rest are as near as they were drawn: that is no stop."""
TOUCH_MM = 0.02
"""Bodies as near as this at rest touch: only matter in matter stops them."""
LEAST_MM3 = 1e-6
THIN_MM = 0.003
THIN_TOUCHING_MM = 0.02
"""Overlaps thinner than this are rounding; of bodies that touch at rest, facets sliding on facets."""
APART_MM = 1e-9
"""Surfaces farther apart than rounding share nothing: they need not be cut."""
SUNK_MM = 0.1
"""Bodies that overlap by thicker pieces as drawn lie in each other: one of them cannot stand there."""
Floats = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True, eq=False)  # bodies do not compare
class Meeting:
    """Two bodies of two groups, in the device's frame at the drawn place.

    Parameters
    ----------
    names
        Of the one that stands and the one that moves.
    groups
        Numbers of their rigid bodies.
    one, other
        What of them can meet.
    bearing
        Their common bearing, which is left out of overlaps: pins in bores, touching rounds.
    guessed
        Whether one of them is hardware of a usual size that nobody stated, or stands at an angle that is not known.
    soft
        Whether one of them is a cord or padding.
    search_mm
        Gaps are looked for so far.
    """

    names: tuple[str, str]
    groups: tuple[int, int]
    one: manifold3d.Manifold
    other: manifold3d.Manifold
    bearing: manifold3d.Manifold | None = None
    guessed: bool = False
    soft: bool = False
    search_mm: float = SEARCH_MM

    @cached_property
    def rest_gap_mm(self) -> float:
        """How near they are as drawn, up to the search length; 0 where they touch or overlap."""
        near = self.near_mm(None) < self.search_mm
        return surface_gap_mm(*self.surfaces, STILL, self.search_mm) if near else self.search_mm

    @cached_property
    def touching(self) -> bool:
        """Whether they touch at rest."""
        return self.rest_gap_mm < TOUCH_MM

    @cached_property
    def cores(self) -> tuple[manifold3d.Manifold, manifold3d.Manifold]:
        """Both bodies without their common bearing, where they touch at rest."""
        if self.bearing is None or not self.touching:
            return self.one, self.other
        return self.one - self.bearing, self.other - self.bearing

    @cached_property
    def rest_mm3(self) -> float:
        """How much of them overlaps as drawn, rounding left out."""
        return sum(float(piece.volume()) for piece in self._thick(STILL)) if self.touching else 0.0

    @property
    def sunk(self) -> bool:
        """Whether they lie in each other as drawn, outside their bearing: no facets, no press fit."""
        if not self.touching or self.soft or self.guessed:
            return False
        return any(2.0 * piece.volume() > SUNK_MM * piece.surface_area() for piece in self._thick(STILL))

    @cached_property
    def corners_mm(self) -> Floats:
        """The eight corners of the moving body's box."""
        box = np.array(self.other.bounding_box()).reshape(2, 3)
        return np.array([[box[i, 0], box[j, 1], box[k, 2]] for i in (0, 1) for j in (0, 1) for k in (0, 1)])

    @cached_property
    def surfaces(self) -> tuple[Surface, Surface]:
        """The surfaces of both bodies."""
        return surface_of(self.one), surface_of(self.other)

    def between(self, moves: list[Frame]) -> Frame:
        """Return how the moving body moves as seen from the standing one."""
        return moves[self.groups[0]].inverse().after(moves[self.groups[1]])

    def clearance_mm(self, asked_mm: float) -> float:
        """Return the clearance that is asked of them: less where they are nearer at rest."""
        return 0.0 if self.touching else min(asked_mm, AT_REST * self.rest_gap_mm)

    def near_mm(self, step: Frame | None) -> float:
        """Return how far their boxes are apart, a lower bound of the gap."""
        moved = self.other if step is None else self.other.transform(step.matrix())
        a, b = np.array(self.one.bounding_box()), np.array(moved.bounding_box())
        apart = np.maximum(np.maximum(a[:3] - b[3:], b[:3] - a[3:]), 0.0)
        return float(np.linalg.norm(apart))

    def overlap(self, step: Frame) -> manifold3d.Manifold | None:
        """Return the largest piece of what overlaps after a step, where more does than at rest; else None."""
        thick = self._thick(step)
        if sum(float(piece.volume()) for piece in thick) <= 1.02 * self.rest_mm3:
            return None
        return max(thick, key=lambda piece: piece.volume())

    def _thick(self, step: Frame) -> list[manifold3d.Manifold]:
        """Return the pieces of what overlaps after a step that are thicker than rounding: twice volume over surface."""
        if not self.touching and surface_gap_mm(*self.surfaces, step, APART_MM) >= APART_MM:
            return []
        shared = self.cores[0] ^ self.cores[1].transform(step.matrix())
        if float(shared.volume()) <= LEAST_MM3:
            return []
        thin = THIN_TOUCHING_MM if self.touching else THIN_MM
        return [piece for piece in shared.decompose() if 2.0 * piece.volume() > thin * piece.surface_area()]

    def gap_mm(self, step: Frame, most_mm: float) -> float:
        """Return the gap after a step, up to a length; 0 where they meet. Touching bodies have none or all of it."""
        near = self.near_mm(step)
        if near >= most_mm:
            return most_mm
        if self.touching:
            return 0.0 if near <= 0.0 and self.overlap(step) is not None else most_mm
        return surface_gap_mm(*self.surfaces, step, most_mm)

    def travel_mm(self, one: Frame, other: Frame) -> float:
        """Return how far the moving body's farthest corner goes between two steps: no point of it goes farther."""
        return float(np.linalg.norm(one.points(self.corners_mm) - other.points(self.corners_mm), axis=1).max())

    def place_mm(self, moves: list[Frame]) -> Vec3:
        """Return where they meet or are nearest, in the device's frame."""
        shared = self.overlap(self.between(moves))
        if shared is not None:
            box = np.array(shared.bounding_box())
            middle = (box[:3] + box[3:]) / 2.0
        else:
            middle = _nearest(self.one, self.other.transform(self.between(moves).matrix()))
        return moves[self.groups[0]].point(middle)


def _nearest(one: manifold3d.Manifold, other: manifold3d.Manifold) -> Floats:
    """Return about where two bodies are nearest: the middle between the nearest of their corners."""
    from scipy.spatial import cKDTree  # noqa: PLC0415

    a, b = (np.asarray(body.refine_to_length(1.0).to_mesh64().vert_properties)[:, :3] for body in (one, other))
    far, at = cKDTree(a).query(b)
    k = int(np.argmin(far))
    found: Floats = (b[k] + a[at[k]]) / 2.0
    return found
