"""Bodies as loose triangles, and the volume of what was healed."""

from __future__ import annotations

import numpy as np

from planner.mesh.formats.soup import Soup
from planner.mesh.repair.heal import Healed
from tests.shapes import Manifold, solid_of


def soup_of(*bodies: tuple[Manifold, bool]) -> Soup:
    """Return bodies as one soup of loose triangles; True turns a body inside out."""
    corners = []
    for body, reversed_ in bodies:
        own = solid_of(body).corners_mm
        corners.append(own[:, ::-1] if reversed_ else own)
    all_corners = np.concatenate(corners)
    return Soup(vertices=all_corners.reshape(-1, 3), faces=np.arange(3 * len(all_corners)).reshape(-1, 3))


def volume_of(found: Healed) -> float:
    """Return the signed volume of what was healed (divergence theorem)."""
    a, b, c = (found.vertices[found.faces[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0)
