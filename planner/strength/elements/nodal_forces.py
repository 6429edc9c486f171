"""Loads as forces on nodes: a pin presses an arc of its bore's wall, anything else a patch of the surface."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.strength.elements.displacements import UnsolvedError
from planner.strength.elements.tetrahedra import Tetrahedra

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]
SIDES = ((1, 2, 3, 9, 8, 7), (0, 3, 2, 9, 5, 6), (0, 1, 3, 8, 6, 4), (0, 2, 1, 7, 4, 5))
"""Nodes of a tetrahedron's sides: three corners, counter-clockwise from outside, then the middles opposite to them."""
WALL_SHARE = 0.15
"""So far from its radius, as a share, a surface still counts as a bore's wall: polygons and chords; no source."""
ARC_DEG = 45.0
"""A pin presses the wall so far to each side of its force. Contact of a rigid pin without friction, worked out in plane
stress, reaches 83 degrees and more where the pin fills the bore, and 31 to 76 where it is loose: all that turns in a
printed bore is. With this arc the greatest stress beside the bore is that of Frocht and Hill (1940, from memory) within
5 % at d / W of 0.2 and 0.4 to 0.7, 8 % under it at 0.3, 11 % over it at 0.15; a cosine over half of the bore stays 8 to
15 % under theirs. ``tests/strength/pin_contact.py`` works that out."""
PRESSED_SHARE = 0.5
"""Where the pressure is over this share of its peak, stress is local bearing and left out: 38 degrees each way."""

OFF_SHARE = 1.3
"""A place inside the solid presses the surface out to so many times the distance of its nearest side; no source."""
FACING = 0.5
"""Sides within 60 degrees of square to a force face it; no source."""
CLAMP_SHARE = 0.5
"""A couple over this share of the force times the bore's radius clamps; no source."""
BALANCE_SHARE = 0.01
"""Loads may be out of balance by this share of the greatest; what is left is taken up at three nodes."""
PATCHES_N = 3.0
"""So many times its size about a patch stress is left out: it dies away over about that (Saint-Venant's principle,
from memory; three and not one or two, since a thin skin over soft infill spreads a force later than a solid does, as
measured on a bar of 8 mm)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """A force, and a couple where a support clamps, on a part in its mesh's frame.

    Parameters
    ----------
    at_mm
        Where the force acts; on a bore's axis where ``axis`` is given.
    axis, radius_mm, deep_mm
        Of the bore whose wall is pressed, ``deep_mm`` along the axis, half on each side of ``at_mm``.
    patch_mm, halves_mm
        Without a bore: how far the surface is pressed about ``at_mm``, or about a line, a plane or a box through it of
        which these are half the sides, square to each other.
    face_mm
        Where parts lie on each other: so near to that box all sides are pressed; else, and where it is 0, those within
        ``patch_mm`` that face the force.
    """

    at_mm: Vec3
    force_n: Vec3
    couple_n_mm: Vec3 = (0.0, 0.0, 0.0)
    axis: Vec3 | None = None
    radius_mm: float = 0.0
    deep_mm: float = 0.0
    patch_mm: float = 1.0
    halves_mm: tuple[Vec3, ...] = ()
    face_mm: float = 0.0


def surface_of(cells: Tetrahedra) -> Ints:
    """Return the outer sides, six nodes each: those that one tetrahedron alone has."""
    sides = cells.cells[:, SIDES].reshape(-1, 6)
    _, first, count = np.unique(np.sort(sides[:, :3], axis=1), axis=0, return_index=True, return_counts=True)
    return np.asarray(sides[first[count == 1]])


def pressed(cells: Tetrahedra, presses: Sequence[Press]) -> tuple[Floats, Flags]:
    """Return forces on nodes (n, 3), and which nodes are so near a load that their stress is left out.

    Each load's forces have exactly its resultant and its moment about its place.
    """
    sides = surface_of(cells)
    corners = cells.nodes_mm[sides[:, :3]]
    areas = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1) / 2.0
    force, near = np.zeros_like(cells.nodes_mm), np.zeros(len(cells.nodes_mm), dtype=bool)
    for press in presses:
        chosen, size_mm = _wall(press, corners)
        # An even load on a quadratic side acts at the middles of its edges alone, a third of it at each.
        weights = np.bincount(
            sides[chosen, 3:].ravel(), np.repeat(areas[chosen] / 3.0, 3), minlength=len(cells.nodes_mm)
        )
        nodes = np.flatnonzero(weights)
        part, local = _spread(press, cells.nodes_mm[nodes], np.asarray(weights[nodes], dtype=float))
        force[nodes] += part
        near[nodes[local]] = True
        if size_mm > 0.0:
            near |= _far_mm(press, cells.nodes_mm) <= PATCHES_N * size_mm
        near[sides[chosen][near[sides[chosen, 3:]].all(axis=1)]] = True
    return force, near


def _wall(press: Press, corners: Floats) -> tuple[Flags, float]:
    """Return which sides are pressed, and about how far from its place stress is the patch's own; 0 for a bore's wall.

    A bore's wall where one is named; the nearest patch where none lies there.
    """
    if press.axis is None:
        return _patch(press, corners)
    axis = np.array(press.axis) / np.linalg.norm(press.axis)
    off = corners - np.array(press.at_mm)
    along = off @ axis
    radial = np.linalg.norm(off - along[..., None] * axis, axis=-1)
    inside = np.abs(along).max(axis=1) <= press.deep_mm / 2.0 + 0.1
    found = inside & (np.abs(radial - press.radius_mm) <= WALL_SHARE * press.radius_mm).all(axis=1)
    if not found.any():
        return _patch(press, corners)
    # A couple that clamps a part at its bore is no pin's pressure: stress about the bore is left out like a patch's.
    clamps = np.linalg.norm(press.couple_n_mm) > CLAMP_SHARE * np.linalg.norm(press.force_n) * press.radius_mm
    return found, press.radius_mm if clamps else 0.0


def _patch(press: Press, corners: Floats) -> tuple[Flags, float]:
    """Return which sides lie about a place, and how far they reach: at least the nearest ones.

    A force pushes: of those about its place it presses the sides that face it, where some do.
    """
    far = _far_mm(press, corners.mean(axis=1))
    size_mm = max(press.patch_mm, OFF_SHARE * float(far.min()))
    if press.face_mm > 0.0:
        return far <= max(press.face_mm, OFF_SHARE * float(far.min())), size_mm
    found = far <= size_mm
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    force = np.array(press.force_n)
    faces = found & (normals @ force < -FACING * np.linalg.norm(normals, axis=1) * np.linalg.norm(force))
    return (faces if faces.any() else found), size_mm


def _far_mm(press: Press, points_mm: Floats) -> Floats:
    """Return how far points lie from the place of a force, or from its line, plane or box."""
    off = points_mm - np.array(press.at_mm)
    for half in (np.array(one) for one in press.halves_mm):
        share = np.clip(off @ half / max(float(half @ half), 1e-12), -1.0, 1.0)
        off = off - share[..., None] * half
    return np.asarray(np.linalg.norm(off, axis=-1))


def _spread(press: Press, nodes_mm: Floats, weights: Floats) -> tuple[Floats, Flags]:
    """Return a load on nodes, and which of them it presses hard.

    A loose pin presses an arc ahead of the force, as round bodies in contact do: by the root of what the square of the
    place leaves of that of the arc (Hertz 1882, from memory). A wall with no node there is pressed by the cosine over
    its half. What then lacks of the resultant and of the moment is put on evenly and as a turn.
    """
    wanted, part = np.array(press.force_n), np.zeros_like(nodes_mm)
    off = nodes_mm - np.array(press.at_mm)
    hard = np.ones(len(nodes_mm), dtype=bool)
    if press.axis is not None and np.linalg.norm(wanted) > 0.0:
        axis = np.array(press.axis) / np.linalg.norm(press.axis)
        outward = off - (off @ axis)[:, None] * axis
        outward /= np.maximum(np.linalg.norm(outward, axis=1, keepdims=True), 1e-9)
        across = wanted - (wanted @ axis) * axis
        cosine = outward @ across / max(float(np.linalg.norm(across)), 1e-9)
        pressure = arc_pressure(cosine)
        if not pressure.any():
            pressure = np.maximum(cosine, 0.0)
        ahead = pressure * weights
        size = ((ahead[:, None] * outward) @ across).sum()
        if size > 0.0:
            part = ahead[:, None] * outward * (across @ across) / size
            hard = pressure > PRESSED_SHARE * pressure.max()
    # part += weights (a + b x r): six equations for a and b.
    lacks = np.concatenate([wanted - part.sum(axis=0), np.array(press.couple_n_mm) - np.cross(off, part).sum(axis=0)])
    if len(nodes_mm) < 3:
        return part + weights[:, None] / weights.sum() * lacks[:3], hard
    fields = [*np.broadcast_to(np.eye(3)[:, None], (3, *off.shape)), *(np.cross(way, off) for way in np.eye(3))]
    rows = np.array(
        [
            np.concatenate([(weights[:, None] * f).sum(axis=0), np.cross(off, weights[:, None] * f).sum(axis=0)])
            for f in fields
        ]
    )
    amounts = np.linalg.lstsq(rows.T, lacks, rcond=1e-10)[0]
    return part + weights[:, None] * np.tensordot(amounts, np.array(fields), axes=1), hard


def arc_pressure(ahead: Floats) -> Floats:
    """Return the pressure on places of a wall, 1 at its peak, by the cosine of their angle to the force, (n,).

    >>> arc_pressure(np.cos(np.radians([0.0, 30.0, 45.0, 180.0]))).round(3).tolist()
    [1.0, 0.707, 0.0, 0.0]
    """
    off = (1.0 - np.clip(ahead, -1.0, 1.0) ** 2) / np.sin(np.radians(ARC_DEG)) ** 2
    return np.asarray(np.where(ahead > 0.0, np.sqrt(np.maximum(1.0 - off, 0.0)), 0.0))


def refuse_unbalanced(loads: Sequence[Press]) -> None:
    """Refuse loads whose forces or moments do not add up to nothing, by :class:`UnsolvedError`."""
    force, at = np.array([one.force_n for one in loads]), np.array([one.at_mm for one in loads])
    moment = np.cross(at - at.mean(axis=0), force) + np.array([one.couple_n_mm for one in loads])
    size = np.linalg.norm(force, axis=1).max()
    reach = np.linalg.norm(at - at.mean(axis=0), axis=1).max()
    most = max(size * reach, np.linalg.norm(moment, axis=1).max())
    if np.linalg.norm(force.sum(axis=0)) > BALANCE_SHARE * max(size, 1e-9) or np.linalg.norm(
        moment.sum(axis=0)
    ) > BALANCE_SHARE * max(most, 1e-9):
        raise UnsolvedError("the loads are out of balance")
