"""Plates with bores whose walls are triangulated as asked: every corner is placed by hand, so the truth is known."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import Delaunay

from planner.mesh import Solid

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Height = Callable[[Floats, Floats], Floats]

GRID = 7


@dataclass(frozen=True, kw_only=True)
class Meant:
    """What a survey must say of one bore; ``turned_deg`` is how far round its wall reaches."""

    drawn_mm: float
    inscribed_mm: float
    depth_mm: float
    axis: tuple[float, float, float]
    at_mm: tuple[float, float, float]
    through: bool
    turned_deg: float = 360.0


@dataclass(frozen=True, kw_only=True)
class Drawing:
    """A solid with the bores that were drawn in it; those of ``also_mm`` may be reported and need not."""

    kind: str
    solid: Solid
    meant: tuple[Meant, ...]
    also_mm: tuple[float, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Wall:
    """A bore's wall: rings of corners by angle, from its lower to its upper mouth, and how bands are zipped.

    ``shares`` are the rings' places between the mouths; ``zip_by`` is ``"near"`` (each edge takes the corner
    nearest to its middle), ``"next"`` (whichever corner comes next), or ``"left"``, ``"right"``, ``"mixed"``
    for rings of equal angles. ``floor`` closes the lower end: ``"flat"``, ``"cone"`` or ``""``.
    """

    at: tuple[float, float]
    diameter_mm: float
    rings: tuple[Floats, ...]
    shares: tuple[float, ...]
    zip_by: str
    floor: str = ""
    floor_mm: float = 0.0


def zipped(
    low: Ints, high: Ints, low_at: Floats, high_at: Floats, by: str, rng: np.random.Generator
) -> list[list[int]]:
    """Return the triangles of the band between two closed rings, seen from the axis counter-clockwise."""
    k, m = len(low), len(high)
    if by in ("left", "right", "mixed"):
        out = []
        for i in range(k):
            a, b, c, d = low[i], low[(i + 1) % k], high[i], high[(i + 1) % k]
            left = by == "left" or (by == "mixed" and rng.random() < 0.5)
            out += [[b, a, c], [b, c, d]] if left else [[b, a, d], [a, c, d]]
        return out
    lows, highs = np.append(low_at, low_at[0] + 2 * math.pi), np.append(high_at, high_at[0] + 2 * math.pi)
    i = j = 0
    out = []
    while i < k or j < m:
        if by == "near":  # an edge belongs to the corner nearest its middle: the faces of the convex hull
            climb = j == m or (i < k and (lows[i] + lows[min(i + 1, k)]) < (highs[j] + highs[min(j + 1, m)]))
        else:
            climb = j == m or (i < k and lows[i + 1] < highs[j + 1])
        if climb:
            out.append([low[(i + 1) % k], low[i % k], high[j % m]])
            i += 1
        else:
            out.append([low[i % k], high[j % m], high[(j + 1) % m]])
            j += 1
    return out


def plate(
    kind: str, walls: Sequence[Wall], top: Height, bottom: Height, half_mm: float, rng: np.random.Generator
) -> Drawing:
    """Return a plate between two sheets with some bores along z, turned at random and rounded as STL rounds."""
    side = np.linspace(-half_mm, half_mm, GRID)
    x, y = (v.ravel() for v in np.meshgrid(side, side, indexing="ij"))
    far = np.ones(len(x), dtype=bool)
    for wall in walls:
        far &= np.hypot(x - wall.at[0], y - wall.at[1]) > 0.75 * wall.diameter_mm
    edge = np.maximum(np.abs(x), np.abs(y)) > half_mm * 0.999
    x, y = x[far | edge], y[far | edge]
    edge = np.maximum(np.abs(x), np.abs(y)) > half_mm * 0.999
    points = [np.column_stack([x, y, top(x, y)]), np.column_stack([x, y, bottom(x, y)])]
    upper, lower = [np.arange(len(x))], [np.arange(len(x)) + len(x)]
    count, faces, inner = 2 * len(x), [], []
    for wall in walls:
        rings = []
        for angle, share in zip(wall.rings, wall.shares, strict=True):
            px = wall.at[0] + wall.diameter_mm / 2 * np.cos(angle)
            py = wall.at[1] + wall.diameter_mm / 2 * np.sin(angle)
            low = np.full(len(px), wall.floor_mm) if wall.floor else bottom(px, py)
            points.append(np.column_stack([px, py, low + share * (top(px, py) - low)]))
            rings.append(np.arange(len(px)) + count)
            count += len(px)
        mine: list[list[int]] = []
        for k in range(len(rings) - 1):
            mine += zipped(rings[k], rings[k + 1], wall.rings[k], wall.rings[k + 1], wall.zip_by, rng)
        inner.append(mine)
        faces += mine
        upper.append(rings[-1])
        if not wall.floor:
            lower.append(rings[0])
            continue
        tip = wall.floor_mm - (0.3 * wall.diameter_mm if wall.floor == "cone" else 0.0)
        points.append(np.array([[*wall.at, tip]]))
        faces += [[a, b, count] for a, b in zip(rings[0].tolist(), np.roll(rings[0], -1).tolist(), strict=True)]
        count += 1
    vertices = np.vstack(points)
    faces += _sheet(vertices, np.concatenate(upper), walls, up=True)
    faces += _sheet(vertices, np.concatenate(lower), [w for w in walls if not w.floor], up=False)
    order = np.flatnonzero(edge)
    order = order[np.argsort(np.arctan2(y[order], x[order]))]
    for a, b in zip(order.tolist(), np.roll(order, -1).tolist(), strict=True):
        faces += [[a, a + len(x), b], [b, a + len(x), b + len(x)]]
    turn, shift = _turn(rng), rng.uniform(-60, 60, 3)
    placed = (vertices @ turn.T + shift).astype(np.float32).astype(np.float64)
    solid = Solid(name=kind, vertices_mm=placed, faces=np.array(faces, dtype=np.int64), sha256=kind)
    return Drawing(
        kind=kind,
        solid=solid,
        meant=tuple(_meant(w, m, vertices, turn, shift) for w, m in zip(walls, inner, strict=True)),
    )


def _turn(rng: np.random.Generator) -> Floats:
    """Return a random rotation."""
    q, r = np.linalg.qr(rng.normal(size=(3, 3)))
    q = q * np.sign(np.diag(r))
    turn: Floats = q if np.linalg.det(q) > 0 else -q
    return turn


def _sheet(vertices: Floats, which: Ints, walls: Sequence[Wall], *, up: bool) -> list[list[int]]:
    """Return the triangles over some corners, seen from above, without those that lie in a bore."""
    flat = vertices[which][:, :2]
    simplices = Delaunay(flat).simplices
    a, b, c = (flat[simplices[:, k]] for k in range(3))
    area = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    simplices = np.where((area > 0)[:, None], simplices, simplices[:, ::-1])
    keep = np.abs(area) > 1e-9
    for wall in walls:
        on = np.abs(np.hypot(flat[:, 0] - wall.at[0], flat[:, 1] - wall.at[1]) - wall.diameter_mm / 2) < 1e-9
        keep &= ~on[simplices].all(axis=1)
    kept = which[simplices[keep]]
    rows: list[list[int]] = (kept if up else kept[:, ::-1]).tolist()
    return rows


def _meant(wall: Wall, faces: list[list[int]], vertices: Floats, turn: Floats, shift: Floats) -> Meant:
    """Return what was drawn; the inscribed circle by points laid along every edge of the wall."""
    corners = vertices[np.array(faces)]
    share = np.linspace(0, 1, 65)[:, None]
    least = math.inf
    for k in range(3):
        along = corners[:, None, k, :2] * (1 - share) + corners[:, None, (k + 1) % 3, :2] * share
        least = min(least, float(np.hypot(*(along - wall.at).reshape(-1, 2).T).min()))
    low, high = float(corners[..., 2].min()), float(corners[..., 2].max())
    middle = turn @ np.array([*wall.at, (low + high) / 2]) + shift
    axis = turn[:, 2]
    return Meant(
        drawn_mm=wall.diameter_mm,
        inscribed_mm=2 * least,
        depth_mm=high - low,
        axis=(float(axis[0]), float(axis[1]), float(axis[2])),
        at_mm=(float(middle[0]), float(middle[1]), float(middle[2])),
        through=not wall.floor,
    )
