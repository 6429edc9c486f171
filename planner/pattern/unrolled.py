"""A patch of a cylinder, a cone or a plane laid flat exactly: lengths and angles stay."""

from __future__ import annotations

import math

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.pattern.patch import Floats, Ints, Patch
from planner.pattern.round_fit import RoundFit

STEP_DEG = 1.0
"""Edges are followed in steps of at most this about the axis."""
Complex = NDArray[np.complex128]
Ring = tuple[tuple[float, float], ...]


def unrolled_plane(patch: Patch) -> tuple[Ring, ...] | None:
    """Return a plane patch's edges in its plane as seen from the skin, outer one first; None without any."""
    normal = patch.crosses_mm2.sum(axis=0)
    normal /= np.linalg.norm(normal)
    along = np.cross(normal, np.eye(3)[int(np.argmin(np.abs(normal)))])
    along /= np.linalg.norm(along)
    away = patch.vertices_mm - patch.vertices_mm.mean(axis=0)
    flat = away @ along + 1j * (away @ np.cross(normal, along))
    if not patch.loops:
        return None
    around = shapely.Polygon(_ring(_pairs(flat[patch.loops[0]]))).minimum_rotated_rectangle
    corners = np.array(around.exterior.coords) @ [1.0, 1.0j]
    side = max(np.diff(corners[:3]), key=abs)  # its longest side becomes level
    flat = _pairs(flat * np.conj(side) / abs(side))
    return tuple(_ring(flat[loop]) for loop in patch.loops)


def unrolled_round(patch: Patch, fit: RoundFit, offset_mm: float) -> tuple[Ring, ...] | None:
    """Return the edges of a patch on a cylinder or cone, unrolled at ``offset_mm`` toward the skin, outer one first.

    A cylinder of radius r: a point at angle θ and height z lies at (r θ, z). A cone of half angle α: its slant length
    ρ = r / sin α stays, and its angle is θ sin α (closed forms of developable surfaces). A sleeve that goes all the way
    round is cut along a straight line that meets no opening; None where every line meets one.
    """
    chains = [_followed(patch.vertices_mm[loop], fit) for loop in patch.loops]
    open_n = [round((angles[-1] - angles[0]) / (2 * math.pi)) for angles, _ in chains]
    if not chains:
        return None
    if any(open_n):
        joined = _cut_open(chains, open_n)
        if joined is None:
            return None
        chains = joined
    else:
        chains = [(angles[:-1], z[:-1]) for angles, z in chains]
        first = chains[0][0].mean()
        chains = [(angles - 2 * math.pi * round((angles.mean() - first) / (2 * math.pi)), z) for angles, z in chains]
    middle = (chains[0][0].max() + chains[0][0].min()) / 2
    rings = [_flat(angles - middle, z, fit, offset_mm) for angles, z in chains]
    turn = -1.0 if signed_area_mm2(rings[0]) < 0.0 else 1.0
    return tuple(_ring(ring * [turn, 1.0]) for ring in rings)


def signed_area_mm2(ring: Floats) -> float:
    """Return the area of a closed ring (n, 2), positive counter-clockwise (shoelace formula)."""
    x, y = ring[:, 0], ring[:, 1]
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2.0


def _followed(points_mm: Floats, fit: RoundFit) -> tuple[Floats, Floats]:
    """Return angle and height along a closed chain, its first point again at its end; angles go on without jumps."""
    closed = np.concatenate([points_mm, points_mm[:1]])
    angles = np.unwrap(fit.seen(closed)[0])
    steps = np.maximum(np.ceil(np.degrees(np.abs(np.diff(angles))) / STEP_DEG), 1).astype(int)
    fine = [closed[k] + (closed[k + 1] - closed[k]) * np.arange(n)[:, None] / n for k, n in enumerate(steps)]
    every = np.concatenate([*fine, closed[-1:]])
    seen, z, _ = fit.seen(every)
    return np.unwrap(seen), z


def _cut_open(chains: list[tuple[Floats, Floats]], open_n: list[int]) -> list[tuple[Floats, Floats]] | None:
    """Return the edges of a sleeve cut along a line: its ends as one ring, its openings; None where it cannot be."""
    ends = [chain for chain, n in zip(chains, open_n, strict=True) if n]
    holes = [chain for chain, n in zip(chains, open_n, strict=True) if not n]
    if len(ends) != 2 or sorted(n for n in open_n if n) != [-1, 1]:
        return None
    seam = _free_angle([(float(a.min()), float(a.max())) for a, _ in holes])
    if seam is None:
        return None
    ring = [_from_seam(angles, z, seam) for angles, z in ends]
    joined = tuple(np.concatenate([one, other]) for one, other in zip(*ring, strict=True))
    back = [(a - 2 * math.pi * math.floor((float(a.min()) - seam) / (2 * math.pi)), z) for a, z in holes]
    return [(joined[0], joined[1]), *((a[:-1], z[:-1]) for a, z in back)]


def _free_angle(spans: list[tuple[float, float]]) -> float | None:
    """Return an angle in the middle of the widest gap between spans of angles; None where there is no gap."""
    turn = 2 * math.pi
    tried = np.linspace(-math.pi, math.pi, 720, endpoint=False)
    room = np.full(len(tried), math.pi)
    for low, high in spans:
        past = np.mod(tried - low, turn)
        gap = np.where(past <= high - low, 0.0, np.minimum(past - (high - low), turn - past))
        room = np.minimum(room, gap)
    best = int(np.argmax(room))
    return None if room[best] <= math.radians(0.5) else float(tried[best])


def _from_seam(angles: Floats, z: Floats, seam: float) -> tuple[Floats, Floats]:
    """Return a chain once round, cut where it passes the seam: from seam to seam, in its own sense."""
    up = angles[-1] > angles[0]
    order = angles if up else angles[::-1]
    high = z if up else z[::-1]
    start = seam + 2 * math.pi * math.ceil((order[0] - seam) / (2 * math.pi) - 1e-12)
    twice, zs = np.concatenate([order, order[1:] + 2 * math.pi]), np.concatenate([high, high[1:]])
    ends = np.interp([start, start + 2 * math.pi], twice, zs)
    inner = (twice > start + 1e-9) & (twice < start + 2 * math.pi - 1e-9)
    found = np.concatenate([[start], twice[inner], [start + 2 * math.pi]]) - start + seam
    heights = np.concatenate([ends[:1], zs[inner], ends[1:]])
    return (found, heights) if up else (found[::-1], heights[::-1])


def _flat(angles: Floats, z: Floats, fit: RoundFit, offset_mm: float) -> Floats:
    """Return points of a cylinder or cone in the plane, (n, 2)."""
    if not fit.slope_ratio:
        return np.column_stack([(fit.radius_mm + fit.sense * offset_mm) * angles, z])
    half = math.atan(fit.slope_ratio)
    radius = fit.radius_mm + fit.slope_ratio * z + fit.sense * offset_mm * math.cos(half)
    slant = radius / math.sin(half)
    least = (fit.radius_mm + fit.sense * offset_mm * math.cos(half)) / math.sin(half)
    turned = angles * math.sin(half)
    return np.column_stack([slant * np.sin(turned), slant * np.cos(turned) - least])


def _pairs(points: Complex) -> Floats:
    """Return complex numbers as pairs, (n, 2)."""
    return np.column_stack([points.real, points.imag])


def _ring(points: Floats) -> Ring:
    """Return points as a ring."""
    return tuple((float(x), float(y)) for x, y in points)


def loops_of(chains: tuple[Ints, ...], flat: Floats) -> tuple[Ring, ...]:
    """Return chains of vertices as rings of the plane."""
    return tuple(_ring(flat[chain]) for chain in chains)
