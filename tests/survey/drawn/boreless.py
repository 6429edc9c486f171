"""Bodies that hold no bore, though much in them is round."""

from __future__ import annotations

import math
from collections.abc import Iterable

import manifold3d
import numpy as np

from sample_parts.solids import bent_tube
from tests.shapes import Manifold, cylinder

Rng = np.random.Generator


def without(seeds: Iterable[int] = range(4)) -> list[tuple[str, manifold3d.Manifold]]:
    """Return bodies without a bore, 13 a seed: fillets, slot ends, pockets, tori, hollows, throats, cones, bends, free forms."""
    found: list[tuple[str, manifold3d.Manifold]] = []
    block = Manifold.cube((60, 40, 12), True)
    for seed in seeds:
        rng = np.random.default_rng(seed)
        n, r = int(rng.integers(16, 97)), float(rng.uniform(1.5, 5.0))
        ends = cylinder(2 * r, 40, n).translate((-10, 0, -20)) + cylinder(2 * r, 40, n).translate((10, 0, -20))
        found.append(("slot", block - manifold3d.Manifold.batch_hull([ends])))
        corner = [cylinder(2 * r, 40, n).translate((x, y, 0)) for x in (-18, 18) for y in (-9, 9)]
        found.append(("pocket", block - Manifold.batch_hull(corner)))
        found.append(("quarter", block - cylinder(4 * r, 40, n).translate((30, 20, -20))))
        found.append(("half", block - cylinder(3 * r, 40, n).translate((0, 20, -20))))
        ring = manifold3d.CrossSection.circle(r, n).translate((12.0, 0.0))
        torus = Manifold.revolve(ring, int(rng.integers(24, 160)))
        found.append(("torus", torus))
        found.append(("torus groove", Manifold.cube((50, 50, 12), True) - torus.translate((0, 0, 6))))
        found.append(("hollow", Manifold.cube((40, 40, 40), True) - Manifold.sphere(3 * r, n)))
        found.append(("dish", block - Manifold.sphere(3 * r, n).translate((0, 0, 6 + 0.3 * r))))
        found.append(("taper", block - Manifold.cylinder(14, r, r * 1.4, n).translate((0, 0, -7))))
        found.append(("oval", block - cylinder(2 * r, 40, n).scale((1.0, 1.15, 1.0)).translate((0, 0, -20))))
        bend = bent_tube(1.0 + 0.2 * seed, 12.0, 90.0, max(n // 2, 12), int(rng.integers(8, 40)))
        found.append(("bend", Manifold.cube((60, 10, 60), True).translate((5, 0, 5)) - bend))
        found.append(("boss", Manifold.cube((30, 30, 3), True) + cylinder(3 * r, 10, n)))
        found.append(("free form", _free_form(rng)))
    return found


def _free_form(rng: Rng) -> manifold3d.Manifold:
    """Return a shell whose section is a wavy round that changes along its length."""
    n, m = 72, 40
    angle, z = np.meshgrid(np.arange(n) * 2 * math.pi / n, np.linspace(0, 60, m))
    outer = 18 + rng.uniform(1, 4) * np.cos(2 * angle + z / 20) + rng.uniform(1, 3) * np.sin(z / 9) + 0.08 * z
    inner = outer - 3.0
    rings = [np.stack([r * np.cos(angle), r * np.sin(angle), z], axis=-1).reshape(-1, 3) for r in (outer, inner)]
    here = np.arange(n * m).reshape(m, n)
    there = np.roll(here, -1, axis=1)
    a, b, c, d = here[:-1].ravel(), there[:-1].ravel(), here[1:].ravel(), there[1:].ravel()
    side = np.vstack([np.column_stack([a, b, d]), np.column_stack([a, d, c])])
    low, lows = here[0], there[0]
    k = n * m
    foot = np.vstack([np.column_stack([low, low + k, lows]), np.column_stack([lows, low + k, lows + k])])
    up, ups = here[-1], there[-1]
    head = np.vstack([np.column_stack([up, ups, up + k]), np.column_stack([ups, ups + k, up + k])])
    faces = np.vstack([side, side[:, ::-1] + k, foot, head])
    return Manifold(manifold3d.Mesh64(np.vstack(rings), faces.astype(np.uint64)))
