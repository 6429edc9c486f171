"""Slots lengthened in a solid at scale, through the wall that they are in and no other."""

from __future__ import annotations

import numpy as np
from manifold3d import Manifold, OpType
from numpy.typing import NDArray

from planner.rebore.recut import PAST_MM, along_of
from planner.survey import Slot

Floats = NDArray[np.float64]

FAR_SHARE, LEFT_SHARE = 0.05, 0.9
"""The last 5 % of the wall that should stay beyond a slot's end is to be 90 % full: a shell bends away a little."""
SLOT_REACH = 1.0
"""A slot is lengthened through all matter within this share of its depth beyond its own mouths."""


def slot_cut(body: Manifold, slot: Slot, target_mm: float, leave_mm: float, s: float) -> Manifold | None:
    """Return the body with a slot lengthened at both ends, through the wall beside it and no other.

    None where less than ``leave_mm`` of the wall would stay beyond its ends.
    """
    cut = _beside(body, slot, target_mm, s)
    if min(_far_shares(body, slot, target_mm + 2 * leave_mm, leave_mm * FAR_SHARE, s)) < LEFT_SHARE:
        return None
    if not cut:
        return body
    # Taking the pieces themselves away would leave flecks of no volume on the skin that they share with the body.
    frame = _slot_frame(slot, s)
    along = np.concatenate([along_of(piece, frame) for piece in cut])
    low, high = float(along.min()) - PAST_MM, float(along.max()) + PAST_MM
    box = Manifold.cube((target_mm, slot.width_mm * s, high - low), center=True).translate((0, 0, (low + high) / 2))
    return body - box.transform(np.ascontiguousarray(frame))


def _beside(body: Manifold, slot: Slot, length_mm: float, s: float) -> list[Manifold]:
    """Return the pieces of the wall within a slot's own depth that a longer slot of a length would take."""
    frame, high = _slot_frame(slot, s), (1 + 2 * SLOT_REACH) * slot.depth_mm * s
    box = Manifold.cube((length_mm, slot.width_mm * s, high), center=True).transform(np.ascontiguousarray(frame))
    half = slot.depth_mm * s / 2
    return [
        piece
        for piece in (body ^ box).decompose()
        if (away := along_of(piece, frame)).min() < half and away.max() > -half
    ]


def _far_shares(body: Manifold, slot: Slot, length_mm: float, strip_mm: float, s: float) -> list[float]:
    """Return how full the last strips of a longer slot are at both ends, 1.0 where the wall is there as at the slot."""
    axis, middle = np.array(slot.length_axis), np.array(slot.at_mm) * s
    taken = Manifold.batch_boolean(_beside(body, slot, length_mm, s), OpType.Add)
    strip_mm3 = strip_mm * slot.width_mm * slot.depth_mm * s * s
    return [
        float(taken.trim_by_plane(tuple(way * axis), way * float(axis @ middle) + length_mm / 2 - strip_mm).volume())
        / strip_mm3
        for way in (1.0, -1.0)
    ]


def _slot_frame(slot: Slot, s: float) -> Floats:
    """Return a slot's length, width and depth axes and its middle at scale, as the columns of a (3, 4) matrix."""
    length, deep = np.array(slot.length_axis), np.array(slot.deep_axis)
    return np.column_stack([length, np.cross(deep, length), deep, np.array(slot.at_mm) * s])
