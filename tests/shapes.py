"""Named solids with known answers, shared by all tests."""

from __future__ import annotations

import math
from pathlib import Path

import manifold3d
import numpy as np

from planner.mesh import Solid, write_stl

ROOT = Path(__file__).parents[1]
DATA = ROOT / "tests" / "data"
Manifold = manifold3d.Manifold


def solid_of(body: manifold3d.Manifold, name: str = "part") -> Solid:
    """Return a manifold as a solid."""
    mesh = body.to_mesh64()
    vertices = np.array(mesh.vert_properties[:, :3], dtype=np.float64)
    return Solid(name=name, vertices_mm=vertices, faces=np.array(mesh.tri_verts, dtype=np.int64), sha256=name)


def cuboid(x: float, y: float, z: float) -> Solid:
    """Return a cuboid on the origin; volume x y z, thinnest wall min(x, y, z)."""
    return solid_of(Manifold.cube((x, y, z)))


def bracket(base_mm: float, wall_mm: float) -> Solid:
    """Return a base of 60 by 50 mm, on which it lies, with a wall of 12 mm that stands on it."""
    wall = manifold3d.Manifold.cube((60.0, wall_mm, base_mm + 12.0)).translate((0.0, 20.0, 0.0))
    return solid_of(manifold3d.Manifold.cube((60.0, 50.0, base_mm)) + wall)


def ngon_area(diameter: float, n: int) -> float:
    """Return the area of a regular n-gon with its corners on a circle: n/2 r2 sin(2 pi / n)."""
    return n / 2 * (diameter / 2) ** 2 * math.sin(2 * math.pi / n)


def cylinder(diameter: float, height: float, n: int) -> manifold3d.Manifold:
    """Return an n-sided prism with its corners on a circle, standing on z = 0."""
    return Manifold.cylinder(height, diameter / 2, diameter / 2, n)


def tube(outer: float, inner: float, height: float, n: int = 96) -> Solid:
    """Return a tube; volume (A(outer) - A(inner)) h."""
    return solid_of(cylinder(outer, height, n) - cylinder(inner, height + 2, n).translate((0, 0, -1)))


def bored_plate(
    x: float, y: float, z: float, bores: list[tuple[float, float, float, int]], *, deep: float | None = None
) -> Solid:
    """Return a plate with bores (x, y, diameter, facets), through, or blind from above by ``deep``."""
    body = Manifold.cube((x, y, z))
    for at_x, at_y, diameter, n in bores:
        cut = cylinder(diameter, z + 2, n).translate((at_x, at_y, -1 if deep is None else z - deep))
        body -= cut
    return solid_of(body)


def ball(diameter: float, n: int = 96) -> Solid:
    """Return a faceted ball with its corners on a sphere."""
    return solid_of(Manifold.sphere(diameter / 2, n))


def written(solid: Solid, path: Path) -> Path:
    """Write a solid as STL and return its path."""
    write_stl(path, [solid])
    return path
