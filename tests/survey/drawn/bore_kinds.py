"""Four hundred drawings of bores over every pattern of triangles; seeds are fixed."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from tests.survey.drawn.cut_bores import crossed, keyed, merged, radial_cut, rounded, slotted, threaded
from tests.survey.drawn.drawn_bores import Drawing, Height, Wall, plate

Floats = NDArray[np.float64]
Rng = np.random.Generator


def _round(n: int, shift: float = 0.0) -> Floats:
    """Return n even angles."""
    return (np.arange(n) + shift) * 2 * math.pi / n


def _flat(height: float) -> Height:
    return lambda x, _: np.full(np.shape(x), height)


def _slant(height: float, x_slope: float, y_slope: float) -> Height:
    return lambda x, y: height + x_slope * x + y_slope * y


def _arch(radius: float, drop: float) -> Height:
    return lambda x, _: np.sqrt(radius**2 - x**2) - drop


def _size(rng: Rng) -> tuple[float, float, int]:
    """Return diameter, thickness (0.15 to 2.5 diameters) and number of corners."""
    diameter = float(rng.uniform(1.5, 14.0))
    return diameter, diameter * float(np.exp(rng.uniform(math.log(0.15), math.log(2.5)))), int(rng.integers(12, 73))


def _one(kind: str, rng: Rng, wall: Wall, deep: float) -> Drawing:
    top, bottom = _flat(deep), _flat(-wall.diameter_mm if wall.floor else 0.0)
    return plate(kind, [wall], top, bottom, 1.5 * wall.diameter_mm, rng)


def _zip(kind: str, rng: Rng, rings: Callable[[int], list[Floats]], by: str, floor: str = "") -> Drawing:
    diameter, deep, n = _size(rng)
    drawn = rings(n)
    inner = np.sort(rng.uniform(0.1, 0.9, len(drawn) - 2)) if len(drawn) > 2 else np.empty(0)
    shares = (0.0, *inner.tolist(), 1.0)
    wall = Wall(at=(0.0, 0.0), diameter_mm=diameter, rings=tuple(drawn), shares=shares, zip_by=by, floor=floor)
    return _one(kind, rng, wall, deep)


def strips(rng: Rng) -> Drawing:
    """Draw quads split either way, or each as it comes."""
    by = str(rng.choice(["left", "right", "mixed"]))
    return _zip("strips", rng, lambda n: [_round(n), _round(n)], by, str(rng.choice(["", "flat", "cone"])))


def fans(rng: Rng) -> Drawing:
    """Give one rim two to four times the corners of the other."""
    by, times, flip = str(rng.choice(["near", "next"])), int(rng.integers(2, 5)), int(rng.integers(2))
    return _zip("fans", rng, lambda n: [_round(n), _round(times * n)][:: 1 - 2 * flip], by)


def staggered(rng: Rng) -> Drawing:
    """Lay one rim's corners over the other's gaps."""
    return _zip("staggered", rng, lambda n: [_round(n), _round(n, 0.5)], "near", str(rng.choice(["", "flat"])))


def shifted(rng: Rng) -> Drawing:
    """Turn the rims against each other by any angle, with any number of corners."""
    shift, more = float(rng.uniform(0, 1)), int(rng.integers(0, 9))
    return _zip("shifted", rng, lambda n: [_round(n), _round(n + more, shift)], str(rng.choice(["near", "next"])))


def ringed(rng: Rng) -> Drawing:
    """Lay rings of corners between the rims, each with its own number and turn."""
    extra = int(rng.integers(1, 5))
    return _zip(
        "ringed",
        rng,
        lambda n: [_round(n + int(rng.integers(0, 9)), float(rng.uniform())) for _ in range(extra + 2)],
        "near",
    )


def slivers(rng: Rng) -> Drawing:
    """Put corners hardly apart on both rims, and a ring hardly above the lower one."""

    def pairs(n: int) -> Floats:
        angle = _round(n)
        return np.sort(np.concatenate([angle, angle[rng.random(n) < 0.3] + float(rng.choice([1e-3, 4e-3, 2e-2]))]))

    diameter, deep, n = _size(rng)
    shares = (0.0, 0.003, 1.0) if rng.random() < 0.5 else (0.0, 1.0)
    rings = tuple(pairs(n) for _ in shares)
    return _one(
        "slivers", rng, Wall(at=(0.0, 0.0), diameter_mm=diameter, rings=rings, shares=shares, zip_by="near"), deep
    )


def uneven(rng: Rng) -> Drawing:
    """Put corners at uneven steps, the widest about twice the narrowest."""
    diameter, deep, n = _size(rng)
    step = rng.uniform(0.7, 1.4, (2, max(n, 18)))
    low, high = (np.cumsum(s) / s.sum() * 2 * math.pi for s in step)
    wall = Wall(at=(0.0, 0.0), diameter_mm=diameter, rings=(low, high), shares=(0.0, 1.0), zip_by="near")
    return _one("uneven", rng, wall, deep)


def slanted(rng: Rng) -> Drawing:
    """Lean both faces, each its own way, by up to 35 degrees."""
    diameter, deep, n = _size(rng)
    slopes = rng.uniform(-0.5, 0.5, 4)
    half = 1.5 * diameter
    gap = float(np.abs(slopes[:2] - slopes[2:]).sum()) * half
    staggers = 0.5 * int(rng.integers(2))
    rings = (_round(n), _round(n, staggers))
    wall = Wall(
        at=(0.0, 0.0), diameter_mm=diameter, rings=rings, shares=(0.0, 1.0), zip_by="near" if staggers else "left"
    )
    return plate("slanted", [wall], _slant(deep + gap, *slopes[:2]), _slant(0.0, *slopes[2:]), half, rng)


def radial(rng: Rng) -> Drawing:
    """Bore through a curved shell, the rims on its two surfaces."""
    diameter, n = float(rng.uniform(1.5, 8.0)), int(rng.integers(12, 73))
    outer = diameter * float(rng.uniform(1.7, 6.0))
    thick = diameter * float(rng.uniform(0.2, 0.6))
    staggers = 0.5 * int(rng.integers(2))
    rings = (_round(n), _round(n, staggers))
    wall = Wall(
        at=(0.0, 0.0), diameter_mm=diameter, rings=rings, shares=(0.0, 1.0), zip_by="near" if staggers else "left"
    )
    half = 0.8 * min(1.5 * diameter, outer - thick)
    return plate("radial", [wall], _arch(outer, 0.0), _arch(outer - thick, 0.0), half, rng)


def bed(rng: Rng) -> Drawing:
    """Put twenty-five bores of many patterns close together in one plate."""
    deep, walls = float(rng.uniform(1.0, 8.0)), []
    for k in range(25):
        n, diameter = int(rng.integers(12, 49)), float(rng.uniform(2.0, 5.0))
        at = (8.0 * (k % 5) - 16.0 + 0.37, 8.0 * (k // 5) - 16.0 + 0.21)
        rings = (_round(n), _round(n, float(rng.uniform())))
        walls.append(Wall(at=at, diameter_mm=diameter, rings=rings, shares=(0.0, 1.0), zip_by="near"))
    return plate("bed", walls, _flat(deep), _flat(0.0), 23.0, rng)


KINDS: dict[Callable[[Rng], Drawing], int] = {
    strips: 36, fans: 40, staggered: 40, shifted: 36, ringed: 36, slivers: 28, uneven: 24, slanted: 28,
    radial: 32, bed: 4, radial_cut: 24, crossed: 16, merged: 12, keyed: 16, slotted: 12, rounded: 12, threaded: 4,
}  # fmt: skip
"""How many of each: 400 in all."""


def drawings(every: int = 1) -> list[Drawing]:
    """Return all four hundred, or of each kind every so many."""
    kinds = enumerate(KINDS.items())
    return [kind(np.random.default_rng([k, index])) for k, (kind, n) in kinds for index in range(0, n, every)]
