"""Bodies: connected pieces of a closed surface, which way out they are, what is a cavity, and what they share."""

from __future__ import annotations

from collections.abc import Iterable

import manifold3d
import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from planner.mesh.solid import arrays_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

RAY = np.array([0.5773, 0.6121, 0.5402]) / np.linalg.norm([0.5773, 0.6121, 0.5402])
"""A direction along no usual face."""
EMPTY_SHARE = 1e-9
"""A closed body of less volume than this share of its box's cube is a folded sheet."""
SHARED = 0.999
"""Bodies whose union holds less than this of their volumes overlap."""


def bodies(vertices: Floats, faces: Ints) -> tuple[int, Ints]:
    """Return the number of connected bodies and the body of every face."""
    n = len(vertices)
    links = coo_matrix((np.ones(2 * len(faces)), (faces[:, [0, 1]].ravel(), faces[:, [1, 2]].ravel())), shape=(n, n))
    label = connected_components(links, directed=False)[1]
    numbers, body = np.unique(label[faces[:, 0]], return_inverse=True)
    return len(numbers), body


def volumes(vertices: Floats, faces: Ints, body: Ints) -> Floats:
    """Return the signed volume of every body."""
    corners = vertices[faces] - vertices.mean(axis=0)
    signed = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6.0
    return np.bincount(body, weights=signed).astype(np.float64)


def outward(vertices: Floats, faces: Ints, body: Ints, told: list[str]) -> Ints:
    """Turn outermost bodies that are inside out, together with all bodies inside them; a cavity stays one."""
    volume = volumes(vertices, faces, body)
    if (volume >= 0).all():
        return faces
    holders = _holders(vertices, faces, body, range(len(volume)))
    outer = {b for b in range(len(volume)) if not holders[b] and volume[b] < 0}
    flipped = [b for b in range(len(volume)) if b in outer or any(holder in outer for holder in holders[b])]
    if not flipped:
        return faces
    told.append(f"{len(flipped)} bodies were inside out and were corrected")
    flip = np.isin(body, flipped)
    return np.where(flip[:, None], faces[:, ::-1], faces)


def united(vertices: Floats, faces: Ints, body: Ints, told: list[str]) -> tuple[Floats, Ints, int]:
    """Unite bodies that overlap, each with its own cavities, so that shared volume counts once; drop folded sheets."""
    volume = volumes(vertices, faces, body)
    low, high = _boxes(vertices, faces, body)
    empty = np.abs(volume) <= EMPTY_SHARE * (high - low).max(axis=1) ** 3
    if empty.any() and not empty.all():
        told.append(f"{int(empty.sum())} bodies without volume dropped")
        faces = faces[~empty[body]]
        return united(vertices, faces, bodies(vertices, faces)[1], told)
    solid, hollow = np.flatnonzero(volume > 0), [int(b) for b in np.flatnonzero(volume < 0)]
    groups = _touching(low[solid], high[solid])
    if not groups:
        return vertices, faces, len(volume)
    holders = _holders(vertices, faces, body, hollow)
    nearest = {b: min(holders[b], key=lambda h: volume[h] if volume[h] > 0 else np.inf) for b in hollow if holders[b]}
    wholes: dict[int, manifold3d.Manifold] = {}
    for own in (int(b) for b in solid):
        members = [own, *(c for c in hollow if nearest.get(c) == own)]
        wholes[own] = _solid(vertices, faces[np.isin(body, members)])
    if any(one.status() != manifold3d.Error.NoError for one in wholes.values()):
        return vertices, faces, len(volume)
    shared = False
    pieces = dict(wholes)
    for group in groups:
        members = [int(solid[k]) for k in group]
        union = manifold3d.Manifold.batch_boolean([wholes[b] for b in members], manifold3d.OpType.Add)
        if union.volume() <= SHARED * sum(wholes[b].volume() for b in members):
            shared = True
            for b in members[1:]:
                pieces.pop(b)
            pieces[members[0]] = union
    if not shared:
        return vertices, faces, len(volume)
    told.append("overlapping bodies united")
    corners, joined = arrays_of(manifold3d.Manifold.compose(list(pieces.values())))
    return corners, joined, bodies(corners, joined)[0]


def _solid(vertices: Floats, faces: Ints) -> manifold3d.Manifold:
    """Return some faces as a solid for booleans."""
    used, index = np.unique(faces, return_inverse=True)
    mesh = manifold3d.Mesh64(
        vert_properties=np.ascontiguousarray(vertices[used]),
        tri_verts=np.ascontiguousarray(index.reshape(-1, 3), dtype=np.uint64),
    )
    return manifold3d.Manifold(mesh)


def _boxes(vertices: Floats, faces: Ints, body: Ints) -> tuple[Floats, Floats]:
    """Return the lowest and highest corner of every body."""
    n = int(body.max()) + 1
    low, high = np.full((n, 3), np.inf), np.full((n, 3), -np.inf)
    corners = vertices[faces]
    np.minimum.at(low, body, corners.min(axis=1))
    np.maximum.at(high, body, corners.max(axis=1))
    return low, high


def _touching(low: Floats, high: Floats) -> list[Ints]:
    """Return groups of bodies whose boxes meet, as indices."""
    if len(low) < 2:
        return []
    flat = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    one, other = shapely.STRtree(flat).query(flat, predicate="intersects")
    meet = (one < other) & (low[one, 2] <= high[other, 2]) & (low[other, 2] <= high[one, 2])
    links = coo_matrix((np.ones(int(meet.sum())), (one[meet], other[meet])), shape=(len(low), len(low)))
    label = connected_components(links, directed=False)[1]
    return [np.flatnonzero(label == k) for k in np.flatnonzero(np.bincount(label) > 1)]


def _holders(vertices: Floats, faces: Ints, body: Ints, asked: Iterable[int]) -> dict[int, list[int]]:
    """Return, for each body asked for, all bodies that enclose it, found by rays from three of its corners."""
    low, high = _boxes(vertices, faces, body)
    held: dict[int, list[int]] = {}
    for b in asked:
        around = np.flatnonzero((low <= low[b]).all(axis=1) & (high >= high[b]).all(axis=1))
        corners = np.unique(faces[body == b])
        points = vertices[corners[[0, len(corners) // 2, -1]]]
        held[b] = [int(c) for c in around if c != b and _inside(points, vertices[faces[body == c]])]
    return held


def _inside(points: Floats, triangles: Floats) -> bool:
    """Return whether points lie inside a closed surface: a ray from each crosses it an odd number of times.

    Ray against triangle by Moeller and Trumbore (1997).
    """
    a, ab, ac = triangles[:, 0], triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0]
    across = np.cross(RAY, ac)
    det = np.einsum("ij,ij->i", ab, across)
    safe = np.where(det == 0.0, np.inf, det)
    for point in points:
        away = point - a
        u = np.einsum("ij,ij->i", away, across) / safe
        turn = np.cross(away, ab)
        v = (turn @ RAY) / safe
        along = np.einsum("ij,ij->i", ac, turn) / safe
        if ((u >= 0) & (v >= 0) & (u + v <= 1) & (along > 0) & (det != 0)).sum() % 2 == 0:
            return False
    return True
