"""A solid: a triangle mesh in mm with its faults named. Copies only, nothing is changed in place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from functools import cached_property, partial

import manifold3d
import numpy as np
import trimesh
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, kw_only=True, eq=False)  # arrays do not compare
class Solid:
    """A triangle mesh in mm.

    Parameters
    ----------
    name
        Of the part, for messages.
    vertices_mm : (n, 3) float
        Read-only.
    faces : (m, 3) int
        Counter-clockwise seen from outside. Read-only.
    sha256
        Of the file's bytes.
    unit
        The unit that the file was read in.
    unit_doubt
        Why the unit may be wrong (a 3MF against the job, sizes implausible); empty if none.
    healed
        What was repaired on reading, in words.
    faults
        What could not be repaired, in words; empty for a sound solid.
    bodies_n
        Connected bodies.
    """

    name: str
    vertices_mm: Floats
    faces: Ints
    sha256: str
    unit: str = "mm"
    unit_doubt: str = ""
    healed: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()
    bodies_n: int = 1

    def __post_init__(self) -> None:
        for name in ("vertices_mm", "faces"):  # a view of our own: the caller's array stays writable
            view = getattr(self, name).view()
            view.setflags(write=False)
            object.__setattr__(self, name, view)

    def __reduce__(self) -> tuple[Callable[[], Solid], tuple[()]]:
        """Pickle the fields alone: what was derived from them is derived again where it is read."""
        return partial(Solid, **{field.name: getattr(self, field.name) for field in fields(self)}), ()

    @property
    def sound(self) -> bool:
        """True where the surface is closed and oriented, so that it has a volume."""
        return not self.faults

    @property
    def triangles_n(self) -> int:
        """Number of triangles."""
        return len(self.faces)

    @cached_property
    def corners_mm(self) -> Floats:
        """Corners of every triangle, (m, 3, 3)."""
        return self.vertices_mm[self.faces]

    @cached_property
    def bounds_mm(self) -> Floats:
        """Lowest and highest corner of the bounding box, (2, 3)."""
        return np.array([self.vertices_mm.min(axis=0), self.vertices_mm.max(axis=0)])

    @property
    def size_mm(self) -> tuple[float, float, float]:
        """Extents along x, y, z."""
        x, y, z = self.bounds_mm[1] - self.bounds_mm[0]
        return float(x), float(y), float(z)

    @cached_property
    def volume_mm3(self) -> float:
        """Signed volume by the divergence theorem: the sum of v0 . (v1 x v2) / 6."""
        near = self.corners_mm - self.vertices_mm.mean(axis=0)
        return float(np.einsum("ij,ij->", near[:, 0], np.cross(near[:, 1], near[:, 2])) / 6.0)

    @cached_property
    def area_mm2(self) -> float:
        """Area of the surface."""
        a, b, c = (self.corners_mm[:, i] for i in range(3))
        return float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2.0)

    @cached_property
    def trimesh(self) -> trimesh.Trimesh:
        """The same mesh for general-purpose queries; vertices are not merged again."""
        return trimesh.Trimesh(self.vertices_mm, self.faces, process=False)

    @cached_property
    def manifold(self) -> manifold3d.Manifold | None:
        """The same solid for sections and booleans, or None where it is not sound."""
        if not self.sound:
            return None
        mesh = manifold3d.Mesh64(
            vert_properties=np.array(self.vertices_mm, dtype=np.float64, order="C"),  # the engine wants its own copy
            tri_verts=np.array(self.faces, dtype=np.uint64, order="C"),
        )
        solid = manifold3d.Manifold(mesh)
        return solid if solid.status() == manifold3d.Error.NoError else None

    def scaled(self, factor: float | tuple[float, float, float]) -> Solid:
        """Return a copy scaled about the origin; three factors scale unevenly."""
        return self.transformed(np.diag(np.broadcast_to(np.asarray(factor, float), 3)))

    def mirrored(self) -> Solid:
        """Return a copy mirrored across the plane x = 0; winding stays outward."""
        return self.transformed(np.diag([-1.0, 1.0, 1.0]))

    def transformed(self, matrix: Floats) -> Solid:
        """Return a copy with every vertex multiplied by a (3, 3) matrix; a mirroring one keeps winding outward."""
        turned = self.vertices_mm @ np.asarray(matrix, float).T
        faces = self.faces[:, ::-1] if np.linalg.det(matrix) < 0 else self.faces
        return replace(self, vertices_mm=np.ascontiguousarray(turned), faces=np.ascontiguousarray(faces))

    def moved(self, by_mm: tuple[float, float, float]) -> Solid:
        """Return a copy moved by a vector in mm."""
        return replace(self, vertices_mm=self.vertices_mm + np.asarray(by_mm, float))

    def with_body(self, body: manifold3d.Manifold, healed: str) -> Solid:
        """Return a copy with another body, and what was done to it in words."""
        vertices_mm, faces = arrays_of(body)
        return replace(self, vertices_mm=vertices_mm, faces=faces, healed=(*self.healed, healed))


def arrays_of(body: manifold3d.Manifold) -> tuple[Floats, Ints]:
    """Return vertices (n, 3) and faces (m, 3) of a body of the engine."""
    mesh = body.to_mesh64()
    return np.array(mesh.vert_properties[:, :3], dtype=np.float64), np.array(mesh.tri_verts, dtype=np.int64)
