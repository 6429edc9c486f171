"""What of two bodies can meet when one turns about an axis: the same heights and the same distances from the axis.

Cut into shells round the axis, each near piece turns on a short arm, so that it may be followed in large steps.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import manifold3d
import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.mechanism.places.frame import Frame

SHELLS_MM = (0.0, 12.0, 30.0, 60.0)
SIDES_N = 64
FAR_MM = 1e5
Floats = NDArray[np.float64]
Pieces = tuple[manifold3d.Manifold, manifold3d.Manifold]
Reach = tuple[float, float, float, float]
"""Least and greatest height along an axis, least and greatest distance from it, in mm."""


def _ring_faces() -> NDArray[np.uint64]:
    """Return the triangles of a ring whose corners are its outer rounds, low and high, and then its inner ones."""
    here = np.arange(SIDES_N)
    (a, b), (c, d), (e, f), (g, h) = ((here + n * SIDES_N, np.roll(here, -1) + n * SIDES_N) for n in range(4))
    quads = ((a, b, d, c), (e, g, h, f), (c, d, h, g), (a, e, f, b))
    halves = [np.column_stack(half) for w, x, y, z in quads for half in ((w, x, y), (w, y, z))]
    return np.concatenate(halves).astype(np.uint64)


TURNS_RAD = 2.0 * np.pi * np.arange(SIDES_N) / SIDES_N
ROUND = np.column_stack([np.cos(TURNS_RAD), np.sin(TURNS_RAD)])
RING_FACES = _ring_faces()


def along(axis: Vec3, at_mm: Vec3) -> Frame:
    """Return a frame whose z lies along an axis."""
    z = np.asarray(axis) / np.linalg.norm(np.asarray(axis))
    x = np.cross(np.eye(3)[int(np.argmin(np.abs(z)))], z)
    x /= np.linalg.norm(x)
    return Frame(turn=np.column_stack([x, np.cross(z, x), z]), shift_mm=np.asarray(at_mm))


def reach_mm(shape: manifold3d.Manifold, frame: Frame) -> Reach:
    """Return the least and the greatest height and distance of a body along and from the axis z of a frame."""
    mesh = shape.to_mesh64()
    into = frame.inverse()
    corners = into.points(np.asarray(mesh.vert_properties)[:, :3])[np.asarray(mesh.tri_verts)]
    flat = corners[:, :, :2]
    edges = np.roll(flat, -1, axis=1) - flat
    long = np.maximum((edges**2).sum(axis=2), 1e-18)
    share = np.clip(-(flat * edges).sum(axis=2) / long, 0.0, 1.0)
    nearest = np.linalg.norm(flat + share[..., None] * edges, axis=2).min()
    side = edges[..., 0] * -flat[..., 1] - edges[..., 1] * -flat[..., 0]
    over = bool(((side > 0).all(axis=1) | (side < 0).all(axis=1)).any())
    farthest = float(np.linalg.norm(flat, axis=2).max())
    return float(corners[..., 2].min()), float(corners[..., 2].max()), 0.0 if over else float(nearest), farthest


def shells(
    one: manifold3d.Manifold, other: manifold3d.Manifold, frame: Frame, margin_mm: float, reaches: tuple[Reach, Reach]
) -> Iterator[Pieces]:
    """Yield the pieces of two bodies that may come as near as a margin when the second turns about z of a frame."""
    a, b = reaches
    low, high = max(a[0], b[0]) - margin_mm, min(a[1], b[1]) + margin_mm
    near, far = max(a[2], b[2]) - margin_mm, min(a[3], b[3]) + margin_mm
    if low >= high or near >= far:
        return
    edges = [near, *(mm for mm in SHELLS_MM if near < mm < far), far]
    for inner, outer in pairwise(edges):
        moving = _within(other, b, frame, (low, high, inner, outer))
        standing = _within(one, a, frame, (low, high, inner - margin_mm, outer + margin_mm))
        if not moving.is_empty() and not standing.is_empty():
            yield standing, moving


def slabs(
    one: manifold3d.Manifold, other: manifold3d.Manifold, frame: Frame, margin_mm: float, reaches: tuple[Reach, Reach]
) -> Iterator[Pieces]:
    """Yield the pieces of two bodies that may come as near as a margin when both move across z of a frame alone."""
    a, b = reaches
    low, high = max(a[0], b[0]) - margin_mm, min(a[1], b[1]) + margin_mm
    if low >= high:
        return
    far = max(a[3], b[3]) + margin_mm
    pieces = [_within(body, reach, frame, (low, high, 0.0, far)) for body, reach in ((one, a), (other, b))]
    if not any(piece.is_empty() for piece in pieces):
        yield pieces[0], pieces[1]


def _within(body: manifold3d.Manifold, reach: Reach, frame: Frame, ring: Reach) -> manifold3d.Manifold:
    """Return what of a body lies in a ring about z of a frame: all of it, uncut, where its reach says so."""
    if ring[0] <= reach[0] and reach[1] <= ring[1] and ring[2] <= reach[2] and reach[3] <= ring[3]:
        return body
    if reach[2] >= ring[3] or reach[3] <= ring[2]:
        return manifold3d.Manifold()
    return body ^ _ring(frame, ring[2], ring[3], ring[0], ring[1])


def _ring(frame: Frame, inner_mm: float, outer_mm: float, low_mm: float, high_mm: float) -> manifold3d.Manifold:
    """Return a ring about z of a frame that covers the round one of the same radii."""
    outer_mm /= float(np.cos(np.pi / SIDES_N))
    if inner_mm <= 0:
        disc = manifold3d.Manifold.cylinder(high_mm - low_mm, outer_mm, -1.0, SIDES_N)
        return disc.translate((0, 0, low_mm)).transform(frame.matrix())
    # One cylinder taken from another takes seven times as long.
    rounds = [(radius, z) for radius in (outer_mm, inner_mm) for z in (low_mm, high_mm)]
    corners = np.concatenate([np.column_stack([radius * ROUND, np.full(SIDES_N, z)]) for radius, z in rounds])
    return manifold3d.Manifold(manifold3d.Mesh64(corners, RING_FACES)).transform(frame.matrix())
