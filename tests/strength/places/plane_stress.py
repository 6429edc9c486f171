"""A flat part in plane stress: six-node triangles on a fine even mesh, apart from all that the product solves with.

Textbook elements (Zienkiewicz and Taylor, from memory): quadratic shifts, straight sides, three Gauss points. No mesh, no
matrix, no average and no criterion of the product: points of a hexagonal grid and of the outline, joined by Delaunay;
stress averaged over a disc of a line's width; von Mises, as layers lie in the plane.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy import sparse
from scipy.sparse.linalg import splu
from scipy.spatial import Delaunay, cKDTree

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
GAUSS = np.array([[2.0, 0.5, 0.5], [0.5, 2.0, 0.5], [0.5, 0.5, 2.0]]) / 3.0
"""Three points, by their corners' shares."""
INNER = 0.7
"""Points of the grid keep so many times the edges' length from the outline."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Pushed:
    """A force on a part's outline about a place, even over ``reach_mm`` to each side.

    With ``bore_mm`` it is a pin's, on the wall of a bore of that radius about the place: a cosine over half of it.
    """

    at_mm: tuple[float, float]
    force_n: tuple[float, float]
    reach_mm: float = 1.0
    bore_mm: float = 0.0


@dataclass(frozen=True, kw_only=True, eq=False)
class Plane:
    """A mesh: corners and middles (n, 2), triangles (m, 6), three corners and the middles opposite them."""

    nodes_mm: Floats
    triangles: Ints

    @property
    def slopes(self) -> tuple[Floats, Floats]:
        """Slopes (m, 3 points, 6 nodes, 2) of the shapes, and areas (m,)."""
        a, b, c = (self.nodes_mm[self.triangles[:, k]] for k in range(3))
        double = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (c[:, 0] - a[:, 0]) * (b[:, 1] - a[:, 1])
        flat = np.stack([np.stack([q[:, 1] - r[:, 1], r[:, 0] - q[:, 0]], -1) for q, r in ((b, c), (c, a), (a, b))], 1)
        flat /= double[:, None, None]
        corner = np.einsum("gk,mkx->mgkx", 4.0 * GAUSS - 1.0, flat)
        pairs = ((1, 2), (2, 0), (0, 1))
        middle = np.stack(
            [4.0 * (GAUSS[:, i, None] * flat[:, None, j] + GAUSS[:, j, None] * flat[:, None, i]) for i, j in pairs], 2
        )
        return np.concatenate([corner, middle], axis=2), double / 2.0


def meshed(shape: shapely.Polygon, edge_mm: float) -> Plane:
    """Return an even mesh of a polygon whose corners lie nearer to each other than an edge, or on straight sides."""
    low_x, low_y, high_x, high_y = shape.bounds
    rim = shapely.get_coordinates(shapely.segmentize(shape, edge_mm))
    x, y = np.meshgrid(np.arange(low_x, high_x, edge_mm), np.arange(low_y, high_y, edge_mm * np.sqrt(0.75)))
    x[1::2] += edge_mm / 2.0
    grid = np.column_stack([x.ravel(), y.ravel()])
    shapely.prepare(inside := shape.buffer(-INNER * edge_mm))
    points = np.unique(np.concatenate([rim, grid[shapely.contains_xy(inside, *grid.T)]]).round(9), axis=0)
    corners = Delaunay(points).simplices
    shapely.prepare(whole := shape.buffer(1e-6))
    corners = corners[shapely.contains_xy(whole, *points[corners].mean(axis=1).T)]
    a, b, c = (points[corners[:, k]] for k in range(3))
    double = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (c[:, 0] - a[:, 0]) * (b[:, 1] - a[:, 1])
    corners = corners[np.abs(double) > 1e-6 * edge_mm**2]
    sides = np.sort(np.concatenate([corners[:, [1, 2]], corners[:, [2, 0]], corners[:, [0, 1]]]), axis=1)
    unique, place = np.unique(sides, axis=0, return_inverse=True)
    middles = len(points) + place.reshape(3, -1).T
    used, triangles = np.unique(np.concatenate([corners, middles], axis=1), return_inverse=True)
    nodes = np.concatenate([points, points[unique].mean(axis=1)])[used]
    triangles = triangles.reshape(-1, 6)
    flip = np.linalg.det(nodes[triangles[:, 1:3]] - nodes[triangles[:, :1]]) < 0.0
    triangles[flip] = triangles[flip][:, [0, 2, 1, 3, 5, 4]]
    return Plane(nodes_mm=nodes, triangles=triangles)


def stresses_mpa(
    plane: Plane, thick_mm: float, pushes: Sequence[Pushed], shape: shapely.Polygon, poisson_ratio: float
) -> Floats:
    """Return stresses (m, 3 points, xx yy xy) of a part that is clamped where its outline lies on x = 0."""
    slopes, areas = plane.slopes
    stiff = np.array([[1.0, poisson_ratio, 0.0], [poisson_ratio, 1.0, 0.0], [0.0, 0.0, (1.0 - poisson_ratio) / 2.0]])
    stiff /= 1.0 - poisson_ratio**2  # for a modulus of 1: no stress hangs on it
    strain = np.zeros((len(areas), 3, 3, 12))
    strain[:, :, 0, ::2], strain[:, :, 1, 1::2] = slopes[..., 0], slopes[..., 1]
    strain[:, :, 2, ::2], strain[:, :, 2, 1::2] = slopes[..., 1], slopes[..., 0]
    each = np.einsum("mgij,ik,mgkl,m->mjl", strain, stiff, strain, thick_mm * areas / 3.0, optimize=True)
    freedoms = (2 * plane.triangles[:, :, None] + np.arange(2)).reshape(-1, 12)
    rows, columns = np.repeat(freedoms, 12, axis=1).ravel(), np.tile(freedoms, (1, 12)).ravel()
    size = 2 * len(plane.nodes_mm)
    matrix = sparse.csc_matrix((each.ravel(), (rows, columns)), (size, size))
    force = np.zeros((len(plane.nodes_mm), 2))
    for push in pushes:
        force += _on_nodes(plane, push, shape)
    free = np.repeat(plane.nodes_mm[:, 0] > 1e-9, 2)
    shift = np.zeros(size)
    shift[free] = splu(matrix[free][:, free]).solve(force.ravel()[free])
    return np.asarray(np.einsum("ik,mgkl,ml->mgi", stiff, strain, shift[freedoms], optimize=True))


def _on_nodes(plane: Plane, push: Pushed, shape: shapely.Polygon) -> Floats:
    """Return one force on nodes of the outline, by the length of outline and the pressure at each."""
    on_rim = shapely.distance(shapely.points(plane.nodes_mm), shape.boundary) < 1e-6
    off = plane.nodes_mm - push.at_mm
    far = np.linalg.norm(off, axis=1)
    if push.bore_mm:
        weight = off @ np.array(push.force_n) / np.linalg.norm(push.force_n) / push.bore_mm
        weight = np.where(on_rim & (far < 1.05 * push.bore_mm), np.maximum(weight, 0.0), 0.0)
    else:
        weight = np.where(on_rim & (far <= push.reach_mm), 1.0, 0.0)
    return np.outer(weight / weight.sum(), push.force_n)


def weakest(
    plane: Plane, stress: Floats, line_mm: float, near: Sequence[tuple[tuple[float, float], float]]
) -> tuple[tuple[float, float], float]:
    """Return where von Mises' stress, averaged over a disc of a line's width, is greatest, and how great (MPa).

    What lies within a distance of given places is left out, as is the clamp's surroundings among them.
    """
    at = (GAUSS @ plane.nodes_mm[plane.triangles[:, :3]]).reshape(-1, 2)
    six, area = stress.reshape(-1, 3), np.repeat(plane.slopes[1] / 3.0, 3)
    kept = np.ones(len(at), dtype=bool)
    for place, far in near:
        kept &= np.linalg.norm(at - place, axis=1) > far
    point = _mises(six)
    tree = cKDTree(at)
    candidates = np.flatnonzero(kept & (point > 0.75 * point[kept].max()))
    best = (0, 0.0)
    for k in candidates:
        others = tree.query_ball_point(at[k], line_mm / 2.0)
        mean = area[others] @ six[others] / area[others].sum()
        best = max(best, (int(k), float(_mises(mean[None])[0])), key=lambda one: one[1])
    x, y = (float(value) for value in at[best[0]])
    return (x, y), best[1]


def _mises(six: Floats) -> Floats:
    """Return von Mises' stress in plane stress."""
    x, y, xy = six.T
    return np.asarray(np.sqrt(x**2 - x * y + y**2 + 3.0 * xy**2))
