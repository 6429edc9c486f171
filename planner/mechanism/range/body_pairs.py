"""Which bodies may meet when a joint moves: those of groups that move on each other, without their common bearings."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from dataclasses import replace
from itertools import combinations

import manifold3d
import numpy as np

from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.places.frame import Frame
from planner.mechanism.range.axis_shells import along, shells, slabs
from planner.mechanism.range.boxes_on_way import Course, Floats
from planner.mechanism.range.device_bodies import Body
from planner.mechanism.range.two_bodies import TOUCH_MM, Meeting

BEARING_MM = 0.3
"""A bearing's zone is so much wider than its bore: what overlaps there is a pin or a round in its bore."""
SIDES_N = 64
MOVED_MM = 1e-7
MARGIN_MM = 0.005
"""Bodies at other heights along the axis, or in contact there face on face, do not meet: they overlap by more."""
FLAT_COS = 1.0 - 1e-6


def meetings_of(
    mechanism: Mechanism,
    bodies: Sequence[Body],
    joint: MovingJoint,
    two_moves: tuple[list[Frame], list[Frame]],
    margin_mm: float,
    course: Course,
    *,
    fixed: bool,
) -> tuple[Meeting, ...]:
    """Return every two bodies that move on each other between two states of the device, those farthest apart first.

    With ``fixed``, only those of which one keeps its size while the device grows. What is far apart is followed in
    long steps, and where it meets, the nearer ones need not be followed any farther.

    A joint outside all loops turns all that hangs on it about one line; then only what comes by each other within a
    margin is taken. What stays apart all along the ``course`` by more is left out, before it is cut.
    """
    here, there = two_moves
    looped, drawn = any(joint.name in loop for loop in mechanism.loops), all(move.still for move in here)
    way, frame = _way(mechanism, joint), along(joint.axis, joint.at_mm)
    base = next(n for n, group in enumerate(mechanism.groups) if joint.parts[0] in group)
    apart, boxes = moving_pairs(here, there), group_boxes(bodies)
    near: dict[tuple[int, int], bool] = {}
    bearings: dict[tuple[str, str], manifold3d.Manifold | None] = {}
    found: list[Meeting] = []
    for a, b in may_meet(bodies, apart, loose_groups(mechanism, joint), fixed=fixed):
        swapped = frozenset((0, a.group)) in apart and frozenset((0, b.group)) not in apart
        one, other = (b, a) if swapped else (a, b)
        groups, clear_mm = (one.group, other.group), search_mm(margin_mm)
        if groups not in near:
            near[groups] = bool(course.spans(groups, boxes[one.group], boxes[other.group], clear_mm))
        if not near[groups] or not course.spans(groups, one.box_mm, other.box_mm, clear_mm):
            continue
        pieces = (
            _pieces(way, frame, one, other, margin_mm)
            if drawn
            else _pieces_moved(way, frame, one, other, margin_mm, here, base)
        )
        pair = (one.name, other.name) if looped else joint.parts
        for standing, moving in pieces:
            if pair not in bearings:
                bearings[pair] = bearing_of(mechanism, *pair)
            found.append(meeting_of(one, other, standing, moving, bearings[pair], margin_mm))
    return tuple(sorted(found, key=lambda meeting: -meeting.near_mm(None)))


def group_boxes(bodies: Sequence[Body]) -> dict[int, Floats]:
    """Return the box round all bodies of each group: where boxes of two groups stay apart, so do all in them."""
    found: dict[int, Floats] = {}
    for body in bodies:
        box = found.setdefault(body.group, body.box_mm)
        found[body.group] = np.array([np.minimum(box[0], body.box_mm[0]), np.maximum(box[1], body.box_mm[1])])
    return found


def may_meet(
    bodies: Sequence[Body], apart: Container[frozenset[int]], asides: frozenset[int], *, fixed: bool
) -> Iterator[tuple[Body, Body]]:
    """Yield every two bodies of groups that move on each other: no pin with what it holds.

    A cord between bodies lies as drawn while something else moves; what a cord itself moves goes along with others.
    """
    led = any(body.ends in apart for body in bodies if body.ends)
    for a, b in combinations([body for body in bodies if not (led and body.ends)], 2):
        if frozenset((a.group, b.group)) not in apart or {a.group, b.group} & asides:
            continue
        if a.name in b.through or b.name in a.through or (fixed and not (a.fixed or b.fixed)):
            continue
        yield a, b


def meeting_of(
    one: Body,
    other: Body,
    standing: manifold3d.Manifold,
    moving: manifold3d.Manifold,
    bearing: manifold3d.Manifold | None,
    margin_mm: float,
) -> Meeting:
    """Return the meeting of two bodies, of which some pieces may meet."""
    return Meeting(
        names=(one.name, other.name),
        groups=(one.group, other.group),
        one=standing,
        other=moving,
        bearing=bearing,
        guessed=one.guessed or other.guessed,
        soft=one.soft or other.soft,
        search_mm=search_mm(margin_mm),
    )


def search_mm(margin_mm: float) -> float:
    """Return how far gaps are looked for between bodies that are asked to keep a margin."""
    return 1.05 * max(margin_mm, 0.0) + TOUCH_MM


def _way(mechanism: Mechanism, joint: MovingJoint) -> str:
    """Return how a joint moves bodies: about its axis, across it (in a flat loop), or anyhow."""
    loops = [loop for loop in mechanism.loops if joint.name in loop]
    flat = all(across(mechanism.joint(name), joint) for loop in loops for name in loop)
    if joint.kind != "turns" or not flat:
        return "anyhow"
    return "across" if loops else "about"


def loose_groups(mechanism: Mechanism, joint: MovingJoint) -> frozenset[int]:
    """Return the groups that swing aside: trees that only a cord or a strap holds, but for the joint's own."""
    trees: dict[int, int] = {}
    for body, base, _, _ in mechanism.linkage.ways:
        trees[body] = body if base < 0 else trees[base]
    number = {copy: n for n, group in enumerate(mechanism.groups) for copy in group}
    mine = trees[number[joint.parts[0]]]
    tied = {trees[number[copy]] for copy in mechanism.tied if copy in number} - {mine, trees[0]}
    return frozenset(body for body, tree in trees.items() if tree in tied)


def across(other: MovingJoint, joint: MovingJoint) -> bool:
    """Return whether a joint moves bodies only across the axis of another that turns."""
    cos = abs(float(np.asarray(other.axis) @ np.asarray(joint.axis)))
    return joint.kind == "turns" and (cos > FLAT_COS if other.kind == "turns" else cos < 1e-3)


def moving_pairs(here: list[Frame], there: list[Frame]) -> frozenset[frozenset[int]]:
    """Return every two groups that move on each other between two states."""
    found = set()
    for one, other in combinations(range(len(here)), 2):
        before, after = (moves[one].inverse().after(moves[other]).matrix() for moves in (here, there))
        if np.abs(before - after).max() > MOVED_MM:
            found.add(frozenset((one, other)))
    return frozenset(found)


def _pieces(
    way: str, frame: Frame, one: Body, other: Body, margin_mm: float
) -> Iterator[tuple[manifold3d.Manifold, manifold3d.Manifold]]:
    """Yield what of two bodies may meet as they turn about z of a frame, move across it, or move anyhow."""
    if way == "anyhow":
        yield one.shape, other.shape
        return
    both = one.reach_mm(frame), other.reach_mm(frame)
    cut = shells if way == "about" else slabs
    yield from cut(one.shape, other.shape, frame, margin_mm, both)


def _pieces_moved(
    way: str, frame: Frame, one: Body, other: Body, margin_mm: float, here: list[Frame], base: int
) -> Iterator[tuple[manifold3d.Manifold, manifold3d.Manifold]]:
    """Yield the same where other joints are held away from the drawn place: cut there, and brought back."""
    into = here[one.group].inverse()
    step = into.after(here[other.group])
    there = replace(other, shape=other.shape.transform(step.matrix()), reaches={})
    for standing, moving in _pieces(way, into.after(here[base]).after(frame), one, there, margin_mm):
        yield standing, moving.transform(step.inverse().matrix())


def bearing_of(mechanism: Mechanism, one: str, other: str) -> manifold3d.Manifold | None:
    """Return the zone of all bores that two copies share; None where they share none."""
    zones = []
    for stack in mechanism.stacks:
        if {one, other} <= set(stack.copies):
            for each in (*stack.of(one), *stack.of(other)):
                radius = each.bore.drawn_diameter_mm / 2 + BEARING_MM
                deep = each.bore.depth_mm + 2 * BEARING_MM
                zone = manifold3d.Manifold.cylinder(deep, radius, radius, SIDES_N, True)  # noqa: FBT003
                zones.append(zone.transform(along(each.bore.axis, each.bore.centre_mm).matrix()))
    return manifold3d.Manifold.batch_boolean(zones, manifold3d.OpType.Add) if zones else None
