"""The narrowest gap between the bodies of one mesh, as of a hinge that prints in place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from manifold3d import Manifold, Mesh64
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from planner.finding import Vec3
from planner.mesh import Solid

Floats = NDArray[np.float64]

INNER_MOST_MM, TOUCH_MM = 2.0, 0.005
"""Bodies of one mesh that lie farther apart stay apart at any size; those that lie nearer touch. No source."""
BODIES_MOST_N = 200
"""Of a mesh in more bodies than this, such as a net, no gaps are looked for but between the largest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class InnerGap:
    """The narrowest gap between the bodies of one mesh, in mm as drawn, where it is, and how many bodies there are."""

    gap_mm: float
    at_mm: Vec3
    bodies_n: int


def inner_gap(solid: Solid) -> InnerGap | None:
    """Return the narrowest gap between the bodies of one mesh, as of a hinge that prints in place; None without one.

    Bodies that touch are no more apart than one body.
    """
    if solid.manifold is None or solid.bodies_n < 2:
        return None
    bodies = _bodies(solid.manifold)
    found: tuple[float, Manifold, Manifold] | None = None
    for one, other in combinations(bodies, 2):
        most_mm = INNER_MOST_MM if found is None else found[0]
        a, b = np.reshape(one.bounding_box(), (2, 3)), np.reshape(other.bounding_box(), (2, 3))
        if (np.maximum(a[0], b[0]) - np.minimum(a[1], b[1])).max() >= most_mm:
            continue
        gap = float(one.min_gap(other, most_mm))
        if TOUCH_MM < gap < most_mm:
            found = gap, one, other
    return None if found is None else InnerGap(gap_mm=found[0], at_mm=_nearest(*found[1:]), bodies_n=len(bodies))


def _bodies(whole: Manifold) -> list[Manifold]:
    """Return the bodies of a solid, the largest first, each with the cavities in it."""
    pieces = sorted(whole.decompose(), key=lambda piece: -abs(piece.volume()))[:BODIES_MOST_N]
    bodies = [[piece] for piece in pieces if piece.volume() > 0.0]
    for cavity in (piece for piece in pieces if piece.volume() <= 0.0):
        box = np.reshape(cavity.bounding_box(), (2, 3))
        about = [body for body in bodies if _holds(np.reshape(body[0].bounding_box(), (2, 3)), box)]
        if about:
            about[-1].append(cavity)  # the smallest of them
    return [body[0] if len(body) == 1 else _whole(body) for body in bodies]


def _whole(surfaces: Sequence[Manifold]) -> Manifold:
    """Return a body of its outer surface and its cavities, which a mere list of both is not taken for."""
    meshes = [surface.to_mesh64() for surface in surfaces]
    first = np.cumsum([0, *(len(mesh.vert_properties) for mesh in meshes[:-1])])
    corners = np.vstack([mesh.vert_properties[:, :3] for mesh in meshes])
    faces = np.vstack([mesh.tri_verts + n for mesh, n in zip(meshes, first.astype(np.uint64), strict=True)])
    return Manifold(Mesh64(vert_properties=corners, tri_verts=faces))


def _holds(outer: Floats, inner: Floats) -> bool:
    """Return whether one box, (2, 3), lies in another."""
    return bool((outer[0] <= inner[0]).all() and (inner[1] <= outer[1]).all())


def _nearest(one: Manifold, other: Manifold) -> Vec3:
    """Return the corner of one body that lies nearest to a corner of the other."""
    here, there = (np.asarray(body.to_mesh().vert_properties, dtype=np.float64)[:, :3] for body in (one, other))
    away_mm, _ = cKDTree(there).query(here)
    at = here[int(np.argmin(away_mm))]
    return float(at[0]), float(at[1]), float(at[2])
