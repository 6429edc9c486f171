"""Surfaces of known shape as patches: their normals look to the axis, as the inside of a shell does."""

from __future__ import annotations

import math

import numpy as np

from planner.pattern.patch import Patch, patch_of


def grid(points: np.ndarray, *, around: bool = False) -> Patch:
    """Return a grid (rows, columns, 3) of points as triangles; ``around`` joins the last column to the first."""
    rows, columns = points.shape[:2]
    faces = []
    for i in range(rows - 1):
        for j in range(columns if around else columns - 1):
            a, b = i * columns + j, i * columns + (j + 1) % columns
            c, d = b + columns, a + columns
            faces += [(a, d, c), (a, c, b)]
    return patch_of(points.reshape(-1, 3), np.array(faces))


def shell(low_radius: float, high_radius: float, long: float, degrees: float, n: int = 48, rows: int = 2) -> Patch:
    """Return the inside of a cylinder or cone round z over an angle; 360 degrees: all the way round."""
    around = degrees >= 360.0
    angles = np.radians(np.linspace(-degrees / 2, degrees / 2, n + 1))[: n if around else n + 1]
    heights = np.linspace(0.0, 1.0, rows)
    radii = low_radius + (high_radius - low_radius) * heights
    points = np.array(
        [[(r * math.cos(a), r * math.sin(a), h * long) for a in angles] for r, h in zip(radii, heights, strict=True)]
    )
    return grid(points, around=around)


def cap(radius: float, degrees: float, n: int = 24) -> Patch:
    """Return a cap of a sphere seen from inside, out to an angle from its pole, in n rings of triangles."""
    points, faces = [(0.0, 0.0, -radius)], []
    for ring in range(1, n + 1):
        out = math.radians(degrees) * ring / n
        count = 6 * ring
        first = len(points)
        for k in range(count):
            a = 2 * math.pi * k / count
            points.append(
                (radius * math.sin(out) * math.cos(a), radius * math.sin(out) * math.sin(a), -radius * math.cos(out))
            )
        before = first - max(6 * (ring - 1), 1)
        for side in range(6):
            for k in range(ring):
                here = first + side * ring + k
                after = first + (side * ring + k + 1) % count
                inner = before + (side * (ring - 1) + k) % max(6 * (ring - 1), 1)
                faces.append((inner, here, after))
                if k < ring - 1:
                    faces.append((inner, after, before + (side * (ring - 1) + k + 1) % (6 * (ring - 1))))
    return patch_of(np.array(points), np.array(faces))
