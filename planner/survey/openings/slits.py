"""The narrowest slit in one body: two faces of it that look at each other across a little air, as of a collet."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from planner.cache import kept, key_of
from planner.finding import Vec3
from planner.mesh import Solid
from planner.survey.rays import face_areas, face_normals, first_hits

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SLIT_VERSION = 1
"""Raised whenever a measure changes, so that kept ones are not trusted."""
SLIT_MOST_MM = 1.0
"""Wider ones stay open at any size that is printed; no source."""
FACING_COS = 0.98
"""Faces within 11 degrees of parallel: what opens as a V is no slit, nor is the groove of a thread."""
LONG_AND_DEEP = 4.0
"""A slit is so many times as long and as deep as it is wide, at least: a small bore is as wide as it is broad."""
LEAST_MM = 1.0
"""What is less long or deep than this is a mark on the skin, and no slit; no source."""
SPACING_MM, POINTS_MOST_N = 0.5, 40_000
WAYS_N = 4
"""Ways are told apart by so many steps from 0 to 1, where points lie in one place."""
OFF_MM, TOUCH_MM = 1e-4, 0.005


@dataclass(frozen=True, slots=True, kw_only=True)
class Slit:
    """The narrowest slit of a mesh in mm as drawn: its width, how long and how deep it is, and where."""

    width_mm: float
    long_mm: float
    deep_mm: float
    at_mm: Vec3


def slit_of(solid: Solid) -> Slit | None:
    """Return the narrowest slit of a solid, kept on disk under its content; None without one."""
    key = key_of(SLIT_VERSION, solid.sha256, solid.unit, solid.vertices_mm.tobytes(), solid.faces.tobytes())
    found = kept("slit", key, tuple[Slit, ...], lambda: slits_in(solid)[:1])
    return found[0] if found else None


def slits_in(solid: Solid) -> tuple[Slit, ...]:
    """Return the slits of a solid, the narrowest first: where a ray outward soon meets a face that looks back."""
    if not solid.sound:
        return ()
    normals, apart_mm = face_normals(solid), _apart_mm(solid)
    points, face = _points(solid, apart_mm)
    if not len(points):
        return ()
    ways = normals[face]
    hits = first_hits(solid, normals, points + OFF_MM * ways, ways)
    near = (hits.distance_mm > TOUCH_MM) & (hits.distance_mm < SLIT_MOST_MM)
    back = np.einsum("ij,ij->i", ways[hits.ray], normals[hits.face]) < -FACING_COS
    taken = np.flatnonzero(near & back)
    taken = taken[_apart(points[hits.ray[taken]], ways[hits.ray[taken]], apart_mm)]
    ray, wide_mm = hits.ray[taken], hits.distance_mm[taken] + OFF_MM
    groups = _together(points[ray], ways[ray], apart_mm)
    found = [_slit(points[ray[mine]], wide_mm[mine], apart_mm) for mine in groups]
    return tuple(sorted((one for one in found if one is not None), key=lambda one: (one.width_mm, one.at_mm)))


def _apart_mm(solid: Solid) -> float:
    """Return how far apart points on the skin lie, so that there are no more of them than a limit."""
    return max(SPACING_MM, float(np.sqrt(face_areas(solid).sum() / POINTS_MOST_N)))


def _points(solid: Solid, apart_mm: float) -> tuple[Floats, Ints]:
    """Return points all over the skin, (n, 3), and the triangle of each."""
    areas = face_areas(solid)
    corners, points, faces = solid.corners_mm, list[Floats](), list[Ints]()
    edges = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2)
    steps = np.maximum(1, np.ceil(edges.max(axis=1) / apart_mm)).astype(np.int64)
    for n in np.unique(steps):
        mine = np.flatnonzero((steps == n) & (areas > 0.0))
        shares = _shares(int(n))
        count = max(1, round(float(areas[mine].mean()) / apart_mm**2)) if len(mine) else 0
        shares = shares[:: max(1, len(shares) // (4 * count))] if count else shares[:0]  # a sliver takes few
        points.append(np.einsum("ks,msx->mkx", shares, corners[mine]).reshape(-1, 3))
        faces.append(np.repeat(mine, len(shares)))
    return np.concatenate(points), np.concatenate(faces)


def _shares(n: int) -> Floats:
    """Return the shares of the corners in the middles of the n² triangles that one is cut into, (n², 3)."""
    rows = [(3 * i + 1, 3 * j + 1) for i in range(n) for j in range(n - i)]
    rows += [(3 * i + 2, 3 * j + 2) for i in range(n - 1) for j in range(n - 1 - i)]
    two = np.array(rows, dtype=np.float64) / (3.0 * n)
    return np.column_stack([two, 1.0 - two.sum(axis=1)])


def _apart(points: Floats, ways: Floats, apart_mm: float) -> Ints:
    """Return which points to keep, one in each cell and way: a fine mesh has many more than tell anything."""
    cells = np.column_stack([np.floor(points / apart_mm), np.round(ways * WAYS_N)])
    kept_ones: Ints = np.sort(np.unique(cells, axis=0, return_index=True)[1])
    return kept_ones


def _together(points: Floats, ways: Floats, apart_mm: float) -> list[Ints]:
    """Return points in groups that lie beside each other and look the same way, or nearly."""
    if not len(points):
        return []
    pairs = cKDTree(points).query_pairs(3.0 * apart_mm, output_type="ndarray")
    alike = np.einsum("ij,ij->i", ways[pairs[:, 0]], ways[pairs[:, 1]]) > FACING_COS
    one, other = pairs[alike].T
    joined = coo_array((np.ones(len(one), dtype=bool), (one, other)), shape=(len(points),) * 2)
    _, names = connected_components(joined, directed=False)
    return [np.flatnonzero(names == name) for name in range(names.max() + 1)]


def _slit(points: Floats, wide_mm: Floats, apart_mm: float) -> Slit | None:
    """Return the slit beside some points of one wall; None where it is not long and deep beside its width."""
    if len(points) < 4:
        return None
    middle = points.mean(axis=0)
    across = np.linalg.svd(points - middle, full_matrices=False)[2]
    extents = np.ptp((points - middle) @ across.T, axis=0) + apart_mm / 2
    width = float(np.quantile(wide_mm, 0.5))
    long_mm, deep_mm = float(extents[0]), float(extents[1])
    if deep_mm < max(LONG_AND_DEEP * width, LEAST_MM):
        return None
    x, y, z = (round(float(one), 2) for one in points[np.linalg.norm(points - middle, axis=1).argmin()])
    return Slit(width_mm=round(width, 4), long_mm=round(long_mm, 2), deep_mm=round(deep_mm, 2), at_mm=(x, y, z))
