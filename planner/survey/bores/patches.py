"""Patches between sharp edges, for meshes whose vertices are noisy: there no two triangles are quite flat together."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.survey.bores.facets import BEND_RAD, Facets, members, pieces

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

EXACT_MM, NOISE_MOST_MM = 1e-4, 0.03
"""Corners off their neighbour's plane by less are flat, by more are drawn so."""
FLAT_SHARE, SIGN_SHARE = 0.3, 0.2
"""A clean mesh of flats and bores has more flat pairs than this; noise bends at least this share each way."""
BROAD, SEEDS_MOST, CORNERS_LEAST = 60.0, 400, 10
"""A flat wall is grown from a triangle this many times as broad as the noise, and has so many corners or more."""
MEDIAN_OF_NORMAL = 0.6745
"""The median of |x| of a normal variable with standard deviation 1."""


def noise_mm(solid: Solid, facets: Facets) -> float:
    """Return the standard deviation of the vertices' noise in mm, 0 where the mesh is clean.

    Notes
    -----
    A corner written as b1, b2, b3 in its neighbour's triangle lies off that plane by noise with the variance
    sigma2 (1 + b1^2 + b2^2 + b3^2). Noise bends pairs both ways; a drawn round bends them one way.
    """
    pairs, edges = facets.pairs, facets.edges
    if not len(pairs):
        return 0.0
    start, end = solid.vertices_mm[edges[:, 0]], solid.vertices_mm[edges[:, 1]]
    far, own = (solid.corners_mm[pairs[:, k]].sum(axis=1) - start - end for k in (1, 0))
    height = np.einsum("ij,ij->i", far - start, facets.normals[pairs[:, 0]])
    along, length = end - start, np.maximum(np.linalg.norm(end - start, axis=1), 1e-12)
    unit = along / length[:, None]
    across = (own - start) - np.einsum("ij,ij->i", own - start, unit)[:, None] * unit
    breadth = np.maximum(np.linalg.norm(across, axis=1), 1e-12)
    third = np.einsum("ij,ij->i", far - start, across) / breadth**2  # barycentric, of the corner opposite the edge
    second = (np.einsum("ij,ij->i", far - start, unit) - third * np.einsum("ij,ij->i", own - start, unit)) / length
    sigma = height / np.sqrt(1.0 + third**2 + second**2 + (1.0 - second - third) ** 2)
    small = np.abs(sigma) < NOISE_MOST_MM
    bent = small & (np.abs(sigma) > EXACT_MM)
    up, down = bent & (sigma > 0), bent & (sigma < 0)
    fewer = up if up.sum() < down.sum() else down
    if (small & ~bent).sum() > FLAT_SHARE * len(pairs) or fewer.sum() < SIGN_SHARE * bent.sum() or not fewer.any():
        return 0.0
    return float(np.median(np.abs(sigma[fewer]))) / MEDIAN_OF_NORMAL


def patches_of(solid: Solid, facets: Facets, sigma: float) -> list[Ints]:
    """Return the faces of every patch that sharp edges or a flat wall bound; flat walls themselves are left out.

    Needle triangles of a flat wall lean any way under noise, so flat walls are told by their vertices first.
    """
    flat = _flat_walls(solid, facets, sigma)
    smooth = (facets.angle_rad < BEND_RAD) & ~flat[facets.pairs].any(axis=1)
    return [faces for faces in members(pieces(facets.pairs[smooth], len(solid.faces))) if not flat[faces[0]]]


def _flat_walls(solid: Solid, facets: Facets, sigma: float) -> NDArray[np.bool_]:
    """Return the faces of flat walls with many corners, each grown from a broad triangle."""
    corners = solid.corners_mm
    sides = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2)
    areas = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1) / 2
    broad = 2 * areas / np.maximum(sides.max(axis=1), 1e-12) > BROAD * sigma
    taken = np.zeros(len(corners), dtype=bool)
    for tried, seed in enumerate(np.argsort(-areas, kind="stable")):
        if tried >= SEEDS_MOST or not broad[seed]:
            break
        if taken[seed]:
            continue
        normal, point = facets.normals[seed], corners[seed].mean(axis=0)
        for _ in range(3):  # the seed alone leans a little: fit the plane to what lies on it, and look again
            on = _joined_to(solid, facets, int(seed), (point, normal, 4.0 * sigma))
            vertices = solid.vertices_mm[np.unique(solid.faces[on])]
            point = vertices.mean(axis=0)
            normal = np.linalg.svd(vertices - point, full_matrices=False)[2][-1]
        if len(vertices) >= CORNERS_LEAST:
            taken[on] = True
    return taken


def _joined_to(solid: Solid, facets: Facets, seed: int, slab: tuple[Floats, Floats, float]) -> Ints:
    """Return the faces that are joined to a seed and lie in a slab about a plane: a point, its normal, half its depth.

    They are grown from the seed, ring by ring, so that a small wall costs little however large the mesh.
    """
    point, normal, depth_mm = slab
    inside = {seed}
    front = np.array([seed])
    taken = [front]
    while len(front):
        pair = facets.pairs_of[front]
        near = np.unique(facets.pairs[pair[pair >= 0]])
        near = near[(np.abs((solid.corners_mm[near] - point) @ normal) < depth_mm).all(axis=1)]
        front = np.array([face for face in near.tolist() if face not in inside], dtype=np.int64)
        inside.update(front.tolist())
        taken.append(front)
    return np.concatenate(taken)
