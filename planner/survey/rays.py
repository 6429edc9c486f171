"""Rays through a solid: the first triangle that each one meets, at double precision."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hits:
    """First hits of a bundle of rays.

    ``ray`` (k,) names the rays that hit, ``face`` (k,) the triangles, ``distance_mm`` (k,) how far.
    """

    ray: Ints
    face: Ints
    distance_mm: Floats


def face_normals(solid: Solid) -> Floats:
    """Return the outward unit normals, (m, 3); zero for a triangle without area."""
    a, b, c = (solid.corners_mm[:, i] for i in range(3))
    normals = np.cross(b - a, c - a)
    length = np.linalg.norm(normals, axis=1, keepdims=True)
    units: Floats = np.divide(normals, length, out=np.zeros_like(normals), where=length > 0)
    return units


def face_areas(solid: Solid) -> Floats:
    """Return the area of every triangle, (m,) in mm2."""
    a, b, c = (solid.corners_mm[:, i] for i in range(3))
    areas: Floats = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2.0
    return areas


def first_hits(solid: Solid, normals: Floats, origins_mm: Floats, directions: Floats) -> Hits:
    """Return the first triangle that each ray meets.

    Parameters
    ----------
    normals : (m, 3) float
        From :func:`face_normals`.
    origins_mm, directions : (n, 3) float
        Unit directions.

    Notes
    -----
    The engine works at single precision and only names the triangle; the distance is recomputed from the
    triangle's plane at double precision, so that it is exact for flat faces.
    """
    faces = np.asarray(solid.trimesh.ray.intersects_first(origins_mm, directions), dtype=np.int64)
    ray = np.flatnonzero(faces >= 0)
    face = faces[ray]
    on_plane = solid.corners_mm[face, 0]
    toward = np.einsum("ij,ij->i", directions[ray], normals[face])
    away = np.einsum("ij,ij->i", on_plane - origins_mm[ray], normals[face])
    good = np.abs(toward) > 1e-6  # a ray along a face has no distance to it
    return Hits(ray=ray[good], face=face[good], distance_mm=away[good] / toward[good])
