"""Threads drawn in a block: grooves in rings (V, trapezoid and square), and a groove that winds up as a helix."""

from __future__ import annotations

from collections import Counter

import manifold3d
import numpy as np
from manifold3d import CrossSection, FillRule

from tests.shapes import Manifold, cylinder

Profile = tuple[tuple[float, float], ...]
"""Corners of one groove: along the axis, in pitches, and outward, in pitches from the land or, of a helix, in depths."""
PROFILES: dict[str, Profile] = {
    "V": ((0.1, 0.0), (0.5, 0.5), (0.9, 0.0)),
    "trapezoid": ((0.2, 0.0), (0.33, 0.5), (0.67, 0.5), (0.8, 0.0)),
    "square": ((0.25, 0.0), (0.25, 0.5), (0.75, 0.5), (0.75, 0.0)),
}

METRIC: Profile = ((0.0, 0.0), (0.25, 0.0), (0.5625, 1.0), (0.6875, 1.0))
"""ISO 68-1: flat for a quarter of the pitch at the minor diameter, for an eighth at the major one."""
SHARP: Profile = ((0.0, 0.0), (0.5, 1.0))
SQUARE: Profile = ((0.0, 0.0), (0.48, 0.0), (0.5, 1.0), (0.98, 1.0))


def rings(kind: str, minor_mm: float, pitch_mm: float, turns_n: int, n: int = 48) -> Manifold:
    """Return a block with a bore of a minor diameter and rings of grooves from its lower face on."""
    high = pitch_mm * turns_n
    body = Manifold.cube((20, 20, high), True).translate((0, 0, high / 2))
    body -= cylinder(minor_mm, high + 2, n).translate((0, 0, -1))
    for turn in range(turns_n):
        outline = [(minor_mm / 2 + out * pitch_mm, (turn + along) * pitch_mm) for along, out in PROFILES[kind]]
        outline = [(minor_mm / 4, outline[0][1]), *outline, (minor_mm / 4, outline[-1][1])]
        body -= _turned(outline, n)
    return body


def _turned(outline: list[tuple[float, float]], n: int) -> Manifold:
    """Return the ring that an outline (radius, height) makes about z, filled to the axis."""
    flat = CrossSection([np.array([(0.0, outline[0][1]), *outline, (0.0, outline[-1][1])])], FillRule.NonZero)
    return Manifold.revolve(flat, n)


def wound(
    minor_mm: float, major_mm: float, pitch_mm: float, turns_n: int, n: int = 36, profile: Profile = METRIC
) -> Manifold:
    """Return a block with a threaded hole through it, n stations round."""
    high = pitch_mm * turns_n
    block = Manifold.cube((20, 20, high), True).translate((0, 0, high / 2))
    return block - _screw(minor_mm, major_mm, pitch_mm, turns_n + 5, n, profile).translate((0, 0, -2.37 * pitch_mm))


def _screw(minor_mm: float, major_mm: float, pitch_mm: float, turns_n: int, n: int, profile: Profile) -> Manifold:
    """Return the body inside a helical surface: a grid of stations and profile corners, with fans at its ends."""
    k, rows = len(profile), len(profile) * turns_n + 1
    row, angle = np.arange(rows), np.arange(n) * 2 * np.pi / n
    along = row // k + np.array([place for place, _ in profile])[row % k]
    out = (minor_mm + (major_mm - minor_mm) * np.array([depth for _, depth in profile]))[row % k] / 2
    z = pitch_mm * (along[None] + angle[:, None] / (2 * np.pi))
    points = np.stack([out * np.cos(angle)[:, None], out * np.sin(angle)[:, None], z], axis=-1).reshape(-1, 3)
    faces = []
    for station in range(n):
        after, up = ((station + 1) % n) * rows, k if station == n - 1 else 0  # one turn on, a pitch higher
        for j in range(rows - 1 - up):
            a, b, c, d = station * rows + j, after + j + up, after + j + 1 + up, station * rows + j + 1
            faces += [(a, b, c), (a, c, d)]
    used = Counter((face[side], face[(side + 1) % 3]) for face in faces for side in range(3))
    tip, top = len(points), len(points) + 1
    for u, v in used:
        if (v, u) not in used:
            faces.append((v, u, tip if points[u, 2] < pitch_mm * turns_n / 2 else top))
    points = np.vstack([points, [[0, 0, pitch_mm / 2], [0, 0, pitch_mm * (turns_n + 0.5)]]])
    kept, number = np.unique(np.array(faces), return_inverse=True)
    mesh = manifold3d.Mesh64(
        vert_properties=np.ascontiguousarray(points[kept]), tri_verts=number.reshape(-1, 3).astype(np.uint64)
    )
    return Manifold(mesh)
