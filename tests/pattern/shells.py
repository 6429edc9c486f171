"""Solids with padding on them: shells with lips, bowls, plates."""

from __future__ import annotations

import math

import numpy as np
from manifold3d import CrossSection, Manifold

from planner.mesh import Solid
from tests.shapes import solid_of


def half_shell(inner: float, wall: float, long: float, n: int = 60, *, lips: bool = False) -> Solid:
    """Return half a pipe along x, open downward (z < 0); ``lips`` rounds its two long edges."""
    angles = np.linspace(0.0, math.pi, n + 1)
    out = [((inner + wall) * math.cos(a), (inner + wall) * math.sin(a)) for a in angles]
    back = [(inner * math.cos(a), inner * math.sin(a)) for a in angles[::-1]]
    section = CrossSection([out + back])
    for side in (-1, 1) if lips else ():
        section += CrossSection.circle(wall / 2, 24).translate((side * (inner + wall / 2), 0.0))
    return solid_of(Manifold.extrude(section, long).rotate((90, 0, 0)).rotate((0, 0, 90)))


def bowl(inner: float, wall: float, degrees: float, n: int = 96) -> Solid:
    """Return a bowl, open downward, out to an angle from its top."""
    ball = Manifold.sphere(inner + wall, n) - Manifold.sphere(inner, n)
    low = inner * math.cos(math.radians(degrees))
    return solid_of(ball.trim_by_plane((0.0, 0.0, 1.0), low))


def plate(x: float, y: float, z: float) -> Solid:
    """Return a plate on the origin with a slot of 26 by 5 mm and a bore of 4 mm through it."""
    slot = Manifold.cube((26.0, 5.0, 3 * z)).translate((10.0, 10.0, -z))
    bore = Manifold.cylinder(3 * z, 2.0, 2.0, 32).translate((x - 15.0, y / 2, -z))
    return solid_of(Manifold.cube((x, y, z)) - slot - bore)
