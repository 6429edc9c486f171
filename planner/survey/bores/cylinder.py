"""One concave cylinder of a mesh, measured on its triangles, and several made one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.around_axis import across, turn, whole
from planner.survey.bores.facets import Facets, distinct
from planner.survey.bores.fitted_circles import COARSE, CUT_LEAST, ROUNDED, Round, Slack, fitted, noisy
from planner.survey.bores.round_ends import ends_are_its_own

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

FACES_LEAST = 4
HELD_LEAST = 0.9
WIDEST_DEG = 61.0
"""No facet is wider; a hexagon's are 60 degrees."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class Cylinder:
    """One concave cylinder. ``low``, ``high`` are its ends along ``axis``, measured from the origin.

    ``faces`` are its triangles; ``turn`` (720,) tells which half degrees round the axis have a wall.
    """

    faces: Ints
    axis: Floats
    centre: Floats
    radius_mm: float
    slack_mm: float
    """How far its corners may lie off the circle."""
    flat_mm: float
    """Least distance of the wall from the axis: the inscribed radius."""
    facets_n: int
    """Corners round the circle."""
    low: float
    high: float
    turn: Bools
    whole: tuple[float, float]
    """Between which places along the axis the wall stands all round; an oblique mouth is left out."""

    @property
    def coverage_deg(self) -> float:
        """How far round the wall reaches."""
        return float(self.turn.mean() * 360.0)

    @property
    def depth_mm(self) -> float:
        """Extent along the axis."""
        return self.high - self.low

    def at(self, along: float) -> Floats:
        """Return the point of the axis at a distance along it."""
        point: Floats = self.centre + (along - float(self.centre @ self.axis)) * self.axis
        return point


def measured(solid: Solid, facets: Facets, faces: Ints, found: Round, noise_mm: float) -> Cylinder | None:
    """Return the cylinder that some triangles on a round are; None where it is a boss or a mere strip."""
    corners, axis = solid.corners_mm[faces], found.axis
    frame = across(axis)
    flat = (corners - found.centre) @ frame.T
    middle = (flat[:, 0] + flat[:, 1] + flat[:, 2]) / 3.0  # numpy is slow over an axis of three, and over one of two
    inward = -np.einsum("ij,ij->i", middle @ frame, facets.normals[faces])
    if float(inward @ facets.areas_mm2[faces]) <= 0.0:
        return None
    along = corners @ axis
    vertices = solid.vertices_mm[distinct(solid.faces[faces], len(solid.vertices_mm))]
    rim = vertices
    if noise_mm:
        deep = vertices @ axis
        rim = vertices[deep < deep.min() + 14 * noise_mm]
    round_n = _round_n((rim - found.centre) @ frame.T, found)
    turned = turn(flat)
    if round_n < max(FACES_LEAST, turned.mean() * 360.0 / WIDEST_DEG):
        return None
    free = _free_mm(flat)
    if noise_mm == 0.0 and free < CUT_LEAST * found.radius_mm:
        return None
    planes = -np.einsum("ij,ij->i", (corners[:, 0] - found.centre), facets.normals[faces])
    return Cylinder(
        faces=faces,
        axis=axis,
        centre=found.centre + (float(along.min() + along.max()) / 2 - float(found.centre @ axis)) * axis,
        radius_mm=found.radius_mm,
        slack_mm=found.slack_mm,
        flat_mm=free if noise_mm == 0.0 else float(np.median(planes)),
        facets_n=round_n,
        low=float(along.min()),
        high=float(along.max()),
        turn=turned,
        whole=whole(flat.reshape(-1, 2), along.ravel()),
    )


def _round_n(flat: Floats, found: Round) -> int:
    """Return how many corners stand round the circle itself; those within 0.2 degrees are one."""
    inside = found.radius_mm - np.sqrt(flat[:, 0] ** 2 + flat[:, 1] ** 2)
    on = flat[inside < found.slack_mm]
    angle = np.sort(np.degrees(np.arctan2(on[:, 1], on[:, 0])))
    return int((np.diff(angle, append=angle[0] + 360.0) > 0.2).sum()) if len(angle) else 0


def _free_mm(flat: Floats) -> float:
    """Return how near the edges of triangles (n, 3, 2) come to the axis: the cylinder that they leave free."""
    return float(edges_near_mm(flat.reshape(-1, 2), np.roll(flat, -1, axis=1).reshape(-1, 2)).min())


def edges_near_mm(start: Floats, end: Floats) -> Floats:
    """Return how near edges between plane points (n, 2) come to the origin, (n,)."""
    way = end - start
    (x, y), (across_mm, along_mm) = np.ascontiguousarray(start.T), np.ascontiguousarray(way.T)
    share = np.clip(-(x * across_mm + y * along_mm) / np.maximum(across_mm**2 + along_mm**2, 1e-24), 0.0, 1.0)
    free: Floats = np.sqrt((x + share * across_mm) ** 2 + (y + share * along_mm) ** 2)
    return free


def united(solid: Solid, facets: Facets, parts: Sequence[Cylinder], noise_mm: float) -> Cylinder | None:
    """Return the one cylinder that some are parts of, or None."""
    faces = np.concatenate([c.faces for c in parts])
    points = solid.vertices_mm[distinct(solid.faces[faces], len(solid.vertices_mm))]
    slack = noisy(noise_mm) if noise_mm else slack_of(parts)
    found = fitted(points, parts[0].axis, slack, hull=noise_mm == 0.0)
    if found is None or found.holds(points).mean() < HELD_LEAST:
        return None
    return measured(solid, facets, faces, found, noise_mm)


def slack_of(parts: Sequence[Cylinder]) -> Slack:
    """Return the slack of those parts that were drawn most exactly: they say what is one with them."""
    return ROUNDED if any(c.slack_mm < 1.1 * ROUNDED.mm(c.radius_mm) for c in parts) else COARSE


def own_ends(solid: Solid, facets: Facets, found: Cylinder) -> bool:
    """Return whether a cylinder ends of its own, and is no stretch of a surface that curves on."""
    return ends_are_its_own(solid, facets, found.faces, found.axis, found.radius_mm, found.slack_mm)
