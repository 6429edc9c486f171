"""From loose triangles to a closed surface: only what is unambiguous is repaired, and each repair is named."""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d
import numpy as np
import trimesh
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from planner.mesh.solid import Solid
from planner.mesh.soup import Soup

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SEAMS = (2e-6, 2e-5, 1e-4)
"""Vertices nearer than this share of the size are one, the smallest that closes the surface: a single-precision
file keeps about 6e-8 of a coordinate, a text file often four or five digits."""
BODIES_UNITED_MOST = 200
"""More bodies than this are not tested for overlap."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Healed:
    """A surface in the file's unit, what was repaired, and what is still wrong."""

    vertices: Floats
    faces: Ints
    healed: tuple[str, ...]
    faults: tuple[str, ...]
    bodies_n: int


def healed(soup: Soup) -> Healed:
    """Merge seams, drop triangles without area, set the winding, close tiny holes; name what stays wrong."""
    told: list[str] = []
    vertices, faces = _merged(soup.vertices, soup.faces, 0.0)
    if len(open_edges(faces)):
        vertices, faces = _seams(vertices, faces, told)
    faces = _dropped(faces, told)
    faces = _wound(vertices, faces, told)
    vertices, faces = _filled(vertices, faces, told)
    bodies_n, body = bodies(vertices, faces)
    faces = _outward(vertices, faces, bodies_n, body, told)
    faults = _faults(vertices, faces)
    if not faults:
        vertices, faces, bodies_n = _united(vertices, faces, bodies_n, body, told)
    return Healed(vertices=vertices, faces=faces, healed=tuple(told), faults=faults, bodies_n=bodies_n)


def open_edges(faces: Ints) -> Ints:
    """Return the directed edges (k, 2) that no face meets from the other side."""
    edges = faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2)
    base = int(edges.max()) + 1 if len(edges) else 1
    there = edges[:, 0] * base + edges[:, 1]
    back = edges[:, 1] * base + edges[:, 0]
    return edges[~np.isin(there, back)]


def bodies(vertices: Floats, faces: Ints) -> tuple[int, Ints]:
    """Return the number of connected bodies and the body of every face."""
    n = len(vertices)
    links = coo_matrix((np.ones(2 * len(faces)), (faces[:, [0, 1]].ravel(), faces[:, [1, 2]].ravel())), shape=(n, n))
    label = connected_components(links, directed=False)[1]
    numbers, body = np.unique(label[faces[:, 0]], return_inverse=True)
    return len(numbers), body


def _merged(vertices: Floats, faces: Ints, tolerance: float) -> tuple[Floats, Ints]:
    """Merge vertices that are equal, or that round to the same cell of a grid."""
    key = vertices + 0.0 if tolerance == 0.0 else np.round(vertices / tolerance)
    _, first, index = np.unique(key, axis=0, return_index=True, return_inverse=True)
    return vertices[first], index.reshape(-1)[faces]


def _seams(vertices: Floats, faces: Ints, told: list[str]) -> tuple[Floats, Ints]:
    """Merge vertices at the smallest tolerance that closes the surface; at the smallest of all where none does."""
    size, before = float(np.ptp(vertices, axis=0).max()), len(open_edges(faces))
    tried = [_merged(vertices, faces, share * size) for share in SEAMS if size > 0.0]
    closed = [mesh for mesh in tried if not len(open_edges(_whole(mesh[1])))]
    best = closed[0] if closed else tried[0] if tried else (vertices, faces)
    if len(open_edges(_whole(best[1]))) < before:
        told.append("seams merged")
        return best
    return vertices, faces


def _whole(faces: Ints) -> Ints:
    """Return the triangles that have three different corners."""
    different = (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    whole: Ints = faces[different]
    return whole


def _dropped(faces: Ints, told: list[str]) -> Ints:
    """Drop triangles with a repeated corner, and all but one of those that stand several times."""
    whole = _whole(faces)
    turned = np.take_along_axis(whole, (np.argmin(whole, axis=1)[:, None] + np.arange(3)) % 3, axis=1)
    _, first = np.unique(turned, axis=0, return_index=True)
    if len(first) < len(whole):
        told.append(f"{len(whole) - len(first)} doubled triangles dropped")
    if len(whole) < len(faces):
        told.append(f"{len(faces) - len(whole)} triangles without area dropped")
    kept: Ints = whole[np.sort(first)]
    return kept


def _wound(vertices: Floats, faces: Ints, told: list[str]) -> Ints:
    """Turn faces so that neighbours agree, where some do not."""
    edges = faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2)
    if len(np.unique(edges, axis=0)) == len(edges):
        return faces
    mesh = trimesh.Trimesh(vertices, faces, process=False)
    trimesh.repair.fix_winding(mesh)  # type: ignore[no-untyped-call]
    turned = int((mesh.faces != faces).any(axis=1).sum())
    if turned:
        told.append(f"{turned} triangles turned round")
    return np.asarray(mesh.faces, dtype=np.int64)


def _filled(vertices: Floats, faces: Ints, told: list[str]) -> tuple[Floats, Ints]:
    """Close holes of three or four edges, where that closes the surface."""
    gaps = len(open_edges(faces))
    if not 3 <= gaps <= len(faces) / 20:  # larger damage is not guessed at
        return vertices, faces
    mesh = trimesh.Trimesh(vertices, faces, process=False)
    trimesh.repair.fill_holes(mesh)
    closed = np.asarray(mesh.faces, dtype=np.int64)
    if len(closed) > len(faces) and not len(open_edges(closed)):
        told.append(f"{len(closed) - len(faces)} triangles added over tiny holes")
        return np.asarray(mesh.vertices, dtype=np.float64), closed
    return vertices, faces


def _volumes(vertices: Floats, faces: Ints, body: Ints) -> Floats:
    """Return the signed volume of every body."""
    corners = vertices[faces] - vertices.mean(axis=0)
    signed = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6.0
    return np.bincount(body, weights=signed).astype(np.float64)


def _outward(vertices: Floats, faces: Ints, bodies_n: int, body: Ints, told: list[str]) -> Ints:
    """Turn bodies that are inside out; one that lies within another is a cavity and stays."""
    volumes = _volumes(vertices, faces, body)
    low = np.array([vertices[faces[body == b]].min(axis=(0, 1)) for b in range(bodies_n)]) if bodies_n <= 1000 else None
    if low is None or (volumes >= 0).all():
        return faces
    high = np.array([vertices[faces[body == b]].max(axis=(0, 1)) for b in range(bodies_n)])
    turned = []
    for b in np.flatnonzero(volumes < 0):
        around = (volumes > 0) & (low <= low[b]).all(axis=1) & (high >= high[b]).all(axis=1)
        if not around.any():
            turned.append(b)
    if not turned:
        return faces
    told.append(f"{len(turned)} bodies were inside out and were turned")
    flip = np.isin(body, turned)
    return np.where(flip[:, None], faces[:, ::-1], faces)


def _faults(vertices: Floats, faces: Ints) -> tuple[str, ...]:
    """Name what keeps the surface from enclosing matter."""
    gaps = len(open_edges(faces))
    if gaps:
        return (f"open at {gaps} edges",)
    probe = Solid(name="", vertices_mm=vertices.copy(), faces=faces.copy(), sha256="")
    if abs(probe.volume_mm3) < 1e-12 * float(np.ptp(vertices, axis=0).max()) ** 3:
        return ("it encloses no volume",)
    if probe.manifold is None:
        return ("its surface meets itself along edges (not a manifold)",)
    return ()


def _united(vertices: Floats, faces: Ints, bodies_n: int, body: Ints, told: list[str]) -> tuple[Floats, Ints, int]:
    """Unite bodies that overlap, so that shared matter counts once."""
    volumes = _volumes(vertices, faces, body)
    if not 1 < bodies_n <= BODIES_UNITED_MOST or (volumes <= 0).any():
        return vertices, faces, bodies_n
    whole = Solid(name="", vertices_mm=vertices.copy(), faces=faces.copy(), sha256="").manifold
    assert whole is not None
    union = manifold3d.Manifold.batch_boolean(whole.decompose(), manifold3d.OpType.Add)
    if union.volume() > 0.999 * volumes.sum():
        return vertices, faces, bodies_n
    told.append("overlapping bodies united")
    mesh = union.to_mesh64()
    joined = np.asarray(mesh.tri_verts, dtype=np.int64)
    return np.array(mesh.vert_properties[:, :3]), joined, bodies(mesh.vert_properties, joined)[0]
