"""Plates of any size with many bores at random places, as single precision leaves them, and what each bore is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path

import manifold3d
import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid, read_solid, write_stl
from planner.survey.bores.bores import bores_of
from tests.shapes import Manifold, cylinder, solid_of

Floats = NDArray[np.float64]
Rng = np.random.Generator
Place = tuple[float, float, float, int]

LAND_MM = 0.4
"""Bores stand this far from each other and from the plate's edges, or farther."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoredPlate:
    """A plate as read back, the number of its bores, and where each one is: x, y, z, diameter, facets."""

    solid: Solid
    middles_mm: Floats
    diameters_mm: Floats
    corners_n: NDArray[np.int64]


def placed(rng: Rng, side_mm: tuple[float, float], wanted_n: int, diameters_mm: tuple[float, float]) -> list[Place]:
    """Return bores (x, y, diameter, facets) at random places that leave a land; a third of them hug an edge."""
    found: list[Place] = []
    for _ in range(30 * wanted_n):
        if len(found) == wanted_n:
            break
        wide, n = float(rng.uniform(*diameters_mm)), int(rng.integers(16, 65))
        least = wide / 2 + LAND_MM
        x, y = (float(rng.uniform(least, side - least)) for side in side_mm)
        if rng.random() < 1 / 3:
            x = least if rng.random() < 0.5 else side_mm[0] - least
        if all(math.hypot(x - u, y - v) > (wide + other) / 2 + LAND_MM for u, v, other, _ in found):
            found.append((x, y, wide, n))
    return found


def plate_read_back(
    places: list[Place], size_mm: tuple[float, float, float], turn_deg: tuple[float, float, float], path: Path
) -> BoredPlate:
    """Return a plate with bores, turned in space, written as STL and read back."""
    cuts = [cylinder(wide, size_mm[2] + 2, n).translate((x, y, -1)) for x, y, wide, n in places]
    body = Manifold.cube(size_mm) - Manifold.batch_boolean(cuts, manifold3d.OpType.Add)
    write_stl(path, [solid_of(body.rotate(turn_deg))])
    turned = solid_of(Manifold.tetrahedron().rotate(turn_deg)).vertices_mm
    turn = np.linalg.lstsq(solid_of(Manifold.tetrahedron()).vertices_mm, turned, rcond=None)[0]
    return BoredPlate(
        solid=read_solid(path),
        middles_mm=np.array([(x, y, size_mm[2] / 2) for x, y, _, _ in places]) @ turn,
        diameters_mm=np.array([wide for _, _, wide, _ in places]),
        corners_n=np.array([n for *_, n in places]),
    )


def wrong_in(plate: BoredPlate) -> list[str]:
    """Return what a survey gets wrong: bores it misses, measures more than 0.5 % off, or invents."""
    bores, possible = bores_of(plate.solid)
    wrong = [f"possible: {bore.drawn_diameter_mm:.3f} at {bore.centre_mm}" for bore in possible]
    at = np.array([bore.centre_mm for bore in bores]).reshape(-1, 3)
    taken: set[int] = set()
    for middle, drawn, n in zip(plate.middles_mm, plate.diameters_mm, plate.corners_n, strict=True):
        near = np.flatnonzero(np.linalg.norm(at - middle, axis=1) < 0.02)
        taken.update(near.tolist())
        free = drawn * math.cos(math.pi / n)
        right = [
            k
            for k in near
            if bores[k].through
            and abs(bores[k].drawn_diameter_mm - drawn) < 0.005 * drawn
            and abs(bores[k].diameter_mm - free) < 0.005 * free
        ]
        if len(near) != 1 or len(right) != 1:
            wrong.append(f"{drawn:.3f} of {n} at {middle.round(2).tolist()}: {[bores[k] for k in near]}")
    return wrong + [f"invented: {bores[k]}" for k in range(len(bores)) if k not in taken]
