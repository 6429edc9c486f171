"""Along which line one copy slides on another: along a slot that its pin lies in, or along the faces that guide it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np
import trimesh
from numpy.typing import NDArray

from planner.assembly import in_slot
from planner.finding import Vec3
from planner.job import part_of
from planner.mechanism.joints.bore_stacks import BoreStack
from planner.mechanism.places.frame import Frame
from planner.mesh import Solid
from planner.survey import Slot, Survey, face_normals, first_hits

GUIDED_MM = 1.0
"""Faces of two parts that look at each other this near guide each other: a running gap is less."""
OPPOSED_COS = -0.98
BACK_MM = 0.05
"""Rays start so far behind a face, so that one that touches is met."""
SAMPLES_N = 3000
SIDE_SHARE = 0.02
"""A side guides where it has this share of the points that look at the other copy."""
LONG_RATIO = 0.5
"""Guides shorter than this part of their distance let tilt and jam what they guide; common practice, no source."""
FREE_SHARE = 0.02
"""Less of the guiding faces than this may look along the way; more, and they stop it."""
Floats = NDArray[np.float64]
Pair = tuple[str, str]


def slide_axis(
    pair: Pair,
    stacks: Sequence[BoreStack],
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
) -> tuple[Vec3, Vec3, str] | str:
    """Return direction, a point and what shows it; a sentence where nothing does.

    Faces that leave two ways free leave one where a pin of either copy shows in which plane both move. The direction's
    largest coordinate is positive.
    """
    slots = list(_slots(pair, stacks, surveys, frames))
    if slots:
        way, at, owner = slots[0]
        return _sense(way), at, f"along the slot of {owner}"
    pins = [stack for stack in stacks if set(pair) & {*stack.copies, *(slot[0] for slot in stack.slots)}]
    guided = _guided(pair, solids, frames)
    guided = guided or _guided(pair, solids, frames, [np.asarray(stack.bores[0].bore.axis) for stack in pins])
    if guided is None:
        return "stated to slide, but neither a slot nor faces that guide it show the direction"
    return _sense(guided[0]), _point(guided[1]), "along the faces that guide it"


def with_slots(stack: BoreStack, surveys: Mapping[str, Survey], frames: Mapping[str, Frame]) -> BoreStack:
    """Return a stack with the slots that its pin lies in: of copies that the pin joins, and has no bore in."""
    base, found = stack.bores[0].bore, []
    at, axis = np.asarray(base.centre_mm), np.asarray(base.axis)
    for copy, frame in frames.items():
        if part_of(copy) not in stack.pin.joins or copy in stack.copies:
            continue
        for n, slot in enumerate(surveys[part_of(copy)].slots):
            if in_slot(_placed(slot, frame), at, axis):
                middle = float((np.asarray(frame.point(slot.at_mm)) - at) @ axis)
                found.append((copy, middle - slot.depth_mm / 2, middle + slot.depth_mm / 2, n))
    return replace(stack, slots=tuple(found))


def _placed(slot: Slot, frame: Frame) -> Slot:
    """Return a slot as it lies in the device."""
    deep, along = frame.direction(slot.deep_axis), frame.direction(slot.length_axis)
    return replace(slot, at_mm=frame.point(slot.at_mm), deep_axis=deep, length_axis=along)


def slot_way(owner: str, stack: BoreStack, surveys: Mapping[str, Survey], frames: Mapping[str, Frame]) -> Vec3:
    """Return along which way a copy's slot runs that a pin lies in, its largest coordinate positive."""
    n = next(n for copy, _, _, n in stack.slots if copy == owner)
    return _sense(np.asarray(frames[owner].direction(surveys[part_of(owner)].slots[n].length_axis)))


def _slots(
    pair: Pair, stacks: Sequence[BoreStack], surveys: Mapping[str, Survey], frames: Mapping[str, Frame]
) -> Iterator[tuple[Floats, Vec3, str]]:
    """Yield direction and middle of every slot of one copy that a pin in the other lies in."""
    for stack in stacks:
        for owner, _, _, n in stack.slots:
            if owner in pair and pair[1 - pair.index(owner)] in stack.copies:
                slot = surveys[part_of(owner)].slots[n]
                yield np.asarray(frames[owner].direction(slot.length_axis)), frames[owner].point(slot.at_mm), owner


def guided_way(
    pair: Pair, axis: Vec3, solids: Mapping[str, Solid], frames: Mapping[str, Frame]
) -> tuple[Vec3, Vec3] | None:
    """Return direction and a point of the way of the second copy between faces on both sides of it; else None.

    The sides are those square to an axis, along which pins keep it. Where they are shorter than half their distance,
    the copy may turn between them, as a disc does, and they guide nothing. The direction's largest coordinate is
    positive.
    """
    found = _guided(pair, solids, frames) or _guided(pair, solids, frames, [np.asarray(axis)])
    if found is None:
        return None
    way = found[0]
    looks, places = _facing(pair[1], pair[0], solids, frames)
    aside = np.cross(way, np.asarray(axis))
    one, other = (places[looks @ aside * sense > -OPPOSED_COS] for sense in (1.0, -1.0))
    if min(len(one), len(other)) < SIDE_SHARE * len(looks):
        return None
    wide = abs(float((one.mean(axis=0) - other.mean(axis=0)) @ aside))
    long = min(float(np.ptp(side @ way)) for side in (one, other))
    return (_sense(way), _point(found[1])) if long > LONG_RATIO * wide else None


def guides(
    pair: Pair, way: Vec3, stacks: Sequence[BoreStack], solids: Mapping[str, Solid], frames: Mapping[str, Frame]
) -> bool:
    """Return whether faces guide the second copy on the first along a way where they stand."""
    pins = [np.asarray(stack.bores[0].bore.axis) for stack in stacks if set(pair) & {*stack.copies}]
    found = _guided(pair, solids, frames) or _guided(pair, solids, frames, pins)
    return found is not None and abs(float(found[0] @ np.asarray(way))) > -OPPOSED_COS


def _guided(
    pair: Pair, solids: Mapping[str, Solid], frames: Mapping[str, Frame], pins: Sequence[Floats] = ()
) -> tuple[Floats, Floats] | None:
    """Return the direction that no guiding face looks along, and the middle of these faces.

    It is the eigenvector of the sum of n nᵀ over points of all faces that guide whose eigenvalue is 0: geometry. Where
    ``pins`` are given, nothing goes along their axes.
    """
    looks, places = zip(*(_facing(owner, other, solids, frames) for owner, other in (pair, pair[::-1])), strict=True)
    normals, middles = np.concatenate(looks), np.concatenate(places)
    if not len(normals):
        return None
    values, vectors = np.linalg.eigh(normals.T @ normals / len(normals) + sum(np.outer(pin, pin) for pin in pins))
    if values[0] > FREE_SHARE or values[1] <= FREE_SHARE:
        return None
    return vectors[:, 0], middles.mean(axis=0)


def _facing(owner: str, other: str, solids: Mapping[str, Solid], frames: Mapping[str, Frame]) -> tuple[Floats, Floats]:
    """Return normals and places of points of one copy that a face of the other looks at from near."""
    mine, theirs = solids[part_of(owner)], solids[part_of(other)]
    points, faces = trimesh.sample.sample_surface(mine.trimesh, SAMPLES_N, seed=0)
    normals = face_normals(mine)[faces]
    into = frames[other].inverse().after(frames[owner])
    ways = normals @ into.turn.T
    hits = first_hits(theirs, face_normals(theirs), into.points(points) - BACK_MM * ways, ways)
    against = np.einsum("ij,ij->i", face_normals(theirs)[hits.face], ways[hits.ray])
    ray = hits.ray[(hits.distance_mm <= GUIDED_MM + BACK_MM) & (against < OPPOSED_COS)]
    return normals[ray] @ frames[owner].turn.T, frames[owner].points(np.asarray(points)[ray])


def _sense(way: Floats) -> Vec3:
    """Return a direction with its largest coordinate positive."""
    return _point(way * np.sign(way[np.argmax(np.abs(way))]))


def _point(p: Floats) -> Vec3:
    """Return a point as a plain record."""
    return float(p[0]), float(p[1]), float(p[2])
