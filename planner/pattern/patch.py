"""A patch: the piece of a part's surface that padding lies on, as triangles that look to the skin."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, kw_only=True, eq=False)  # arrays do not compare
class Patch:
    """Triangles in mm, at size.

    Parameters
    ----------
    vertices_mm : (n, 3) float
        Only those that a triangle uses.
    faces : (m, 3) int
        Counter-clockwise as seen from the skin.
    """

    vertices_mm: Floats
    faces: Ints

    @cached_property
    def corners_mm(self) -> Floats:
        """Corners of every triangle, (m, 3, 3)."""
        return self.vertices_mm[self.faces]

    @cached_property
    def crosses_mm2(self) -> Floats:
        """Twice the area of every triangle along its normal, (m, 3)."""
        a, b, c = (self.corners_mm[:, k] for k in range(3))
        crosses: Floats = np.cross(b - a, c - a)
        return crosses

    @cached_property
    def areas_mm2(self) -> Floats:
        """Area of every triangle, (m,)."""
        areas: Floats = np.linalg.norm(self.crosses_mm2, axis=1) / 2.0
        return areas

    @cached_property
    def normals(self) -> Floats:
        """Unit normals toward the skin, (m, 3); zero for a triangle without area."""
        long = np.linalg.norm(self.crosses_mm2, axis=1, keepdims=True)
        units: Floats = np.divide(self.crosses_mm2, long, out=np.zeros_like(self.crosses_mm2), where=long > 0)
        return units

    @property
    def area_mm2(self) -> float:
        """Area of the patch."""
        return float(self.areas_mm2.sum())

    @cached_property
    def loops(self) -> tuple[Ints, ...]:
        """Its edges as closed chains of vertices, the surface at their left as seen from the skin; longest first."""
        edges = np.concatenate([self.faces[:, [0, 1]], self.faces[:, [1, 2]], self.faces[:, [2, 0]]])
        there = {(int(a), int(b)) for a, b in edges}
        follows: dict[int, list[int]] = {}
        for a, b in sorted(there):
            if (b, a) not in there:
                follows.setdefault(a, []).append(b)
        chains = []
        while follows:
            first = here = min(follows)
            chain = []
            while here in follows:
                chain.append(here)
                ways = follows[here]
                after = ways.pop()
                if not ways:
                    del follows[here]
                here = after
                if here == first:
                    break
            chains.append(np.array(chain, dtype=np.int64))
        return tuple(sorted(chains, key=self._long_mm, reverse=True))

    def _long_mm(self, chain: Ints) -> float:
        """Return the length of a closed chain."""
        points = self.vertices_mm[chain]
        return float(np.linalg.norm(points - np.roll(points, 1, axis=0), axis=1).sum())

    def offset(self, by_mm: float) -> Patch:
        """Return the patch moved along its normals, toward the skin.

        A vertex moves so that the planes of its triangles move by ``by_mm`` in the mean: along the mean of their
        normals weighted by their angles there, as far as that mean is shorter than one.
        """
        mean = np.zeros_like(self.vertices_mm)
        weight = np.zeros(len(self.vertices_mm))
        for k in range(3):
            here, one, other = (self.corners_mm[:, (k + j) % 3] for j in range(3))
            u, v = one - here, other - here
            angle = np.arctan2(np.linalg.norm(np.cross(u, v), axis=1), np.einsum("ij,ij->i", u, v))
            np.add.at(mean, self.faces[:, k], angle[:, None] * self.normals)
            np.add.at(weight, self.faces[:, k], angle)
        mean /= np.maximum(weight, 1e-12)[:, None]
        square = np.maximum(np.einsum("ij,ij->i", mean, mean), 0.25)
        return Patch(vertices_mm=self.vertices_mm + by_mm * mean / square[:, None], faces=self.faces)


def patch_of(vertices_mm: Floats, faces: Ints) -> Patch:
    """Return the patch of some triangles, with the vertices that they use."""
    used, compact = np.unique(faces, return_inverse=True)
    return Patch(vertices_mm=np.ascontiguousarray(vertices_mm[used]), faces=compact.reshape(-1, 3).astype(np.int64))
