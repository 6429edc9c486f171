"""Curved meshes of any size without a bore: a torus, a wavy shell as drawn and as scanned, a scanned limb."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def _skin(m: int, n: int, *, closed: bool) -> Ints:
    """Return the triangles over a grid of m rings of n points, first and last ring joined where closed."""
    here = np.arange(m * n).reshape(m, n)
    there, up = np.roll(here, -1, axis=1), np.roll(here, -1, axis=0)
    beyond = np.roll(there, -1, axis=0)
    stop = m if closed else m - 1
    a, b, c, d = (part[:stop].ravel() for part in (here, there, up, beyond))
    return np.vstack([np.column_stack([a, b, d]), np.column_stack([a, d, c])])


def _solid(name: str, vertices: Floats, faces: Ints) -> Solid:
    """Return a solid whose faces look outward."""
    solid = Solid(name=name, vertices_mm=vertices, faces=faces, sha256=name)
    turned = np.ascontiguousarray(faces[:, ::-1])
    return solid if solid.volume_mm3 > 0 else Solid(name=name, vertices_mm=vertices, faces=turned, sha256=name)


def torus(triangles_n: int) -> Solid:
    """Return a torus of 30 and 10 mm."""
    n = int((triangles_n / 2) ** 0.5)
    u, v = np.meshgrid(*[np.arange(n) * 2 * np.pi / n] * 2, indexing="ij")
    wide = 30 + 10 * np.cos(v)
    points = np.stack([wide * np.cos(u), wide * np.sin(u), 10 * np.sin(v)], axis=-1)
    return _solid("torus", points.reshape(-1, 3), _skin(n, n, closed=True))


def wavy_shell(triangles_n: int) -> Solid:
    """Return a shell of 3 mm whose section changes along its 200 mm."""
    n = int((triangles_n / 4) ** 0.5)
    z, a = np.meshgrid(np.linspace(0, 200, n), np.arange(n) * 2 * np.pi / n, indexing="ij")
    r = 40 + 4 * np.cos(2 * a + z / 60) + 3 * np.sin(z / 30) + 0.08 * z + 1.5 * np.cos(5 * a - z / 25)
    rings = [np.stack([(r - t) * np.cos(a), (r - t) * np.sin(a), z], axis=-1).reshape(-1, 3) for t in (0.0, 3.0)]
    side, k, low = _skin(n, n, closed=False), n * n, np.arange(n)
    ends = []
    for ring, way in ((low, 1), (low + n * (n - 1), -1)):
        after = np.roll(ring, -1)
        band = np.vstack([np.column_stack([ring, ring + k, after]), np.column_stack([after, ring + k, after + k])])
        ends.append(band[:, ::way])
    return _solid("shell", np.vstack(rings), np.vstack([side, side[:, ::-1] + k, *ends]))


def scanned_shell(triangles_n: int) -> Solid:
    """Return the wavy shell with 0.02 mm of noise in every corner."""
    shell = wavy_shell(triangles_n)
    noise = np.random.default_rng(5).normal(0.0, 0.02, shell.vertices_mm.shape)
    return replace(shell, vertices_mm=shell.vertices_mm + noise, name="scanned shell", sha256="scanned shell")


def scanned_limb(triangles_n: int) -> Solid:
    """Return a closed limb with 0.02 mm of noise in every corner, as a scan has."""
    n = int((triangles_n / 2) ** 0.5)
    t, a = np.meshgrid(np.linspace(0.02, np.pi - 0.02, n), np.arange(n) * 2 * np.pi / n, indexing="ij")
    noise = np.random.default_rng(1).normal(0, 0.02, t.shape)
    r = np.sqrt(np.sin(t)) * (40 + 3 * np.cos(2 * a) + 5 * np.cos(2 * t) + noise)
    points = np.stack([r * np.cos(a), r * np.sin(a), -120 * np.cos(t)], axis=-1).reshape(-1, 3)
    low, high, k = np.arange(n), np.arange(n) + n * (n - 1), n * n
    caps = [
        np.column_stack([np.full(n, k), np.roll(low, -1), low]),
        np.column_stack([np.full(n, k + 1), high, np.roll(high, -1)]),
    ]
    points = np.vstack([points, [[0.0, 0.0, -121.0], [0.0, 0.0, 121.0]]])
    return _solid("limb", points, np.vstack([_skin(n, n, closed=False), *caps]))
