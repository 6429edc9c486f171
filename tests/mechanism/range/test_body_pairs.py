"""Which bodies may meet when a joint moves: cubes and bars, by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from planner.assembly import Claim
from planner.mechanism import BoreStack, PlacedBore
from planner.mechanism.places.frame import STILL, Frame
from planner.mechanism.range.body_pairs import (
    BEARING_MM,
    across,
    bearing_of,
    group_boxes,
    loose_groups,
    may_meet,
    meetings_of,
    moving_pairs,
    search_mm,
)
from planner.mechanism.range.boxes_on_way import course_of
from planner.mechanism.range.device_bodies import Body, device_bodies
from planner.mechanism.range.two_bodies import TOUCH_MM
from tests.conftest import MakeJob
from tests.mechanism.invented import Device, chains, turns
from tests.mechanism.range.test_device_bodies import BORE, SCREW
from tests.shapes import Manifold

CUBE = Manifold.cube((10, 10, 10))
ARMS = next(chains())
"""An arm on an arm on a base, each a level higher; blocks on the first stop the second."""


def _body(name: str, group: int, x_mm: float = 0.0, *, through: tuple[str, ...] = (), fixed: bool = False) -> Body:
    """Return a cube of 10 mm."""
    shape = CUBE.translate((x_mm, 0, 0))
    return Body(name=name, group=group, shape=shape, through=frozenset(through), fixed=fixed)


def _by(x_mm: float) -> Frame:
    """Return a move along x."""
    return Frame(turn=np.eye(3), shift_mm=np.array([x_mm, 0.0, 0.0]))


def test_groups_that_move_alike_do_not_move_on_each_other() -> None:
    """Two groups go along by 5 mm, one stays: the one that stays against each of the others, and these not on each other."""
    assert moving_pairs([STILL] * 3, [STILL, _by(5.0), _by(5.0)]) == {frozenset((0, 1)), frozenset((0, 2))}
    assert moving_pairs([STILL] * 3, [_by(5.0)] * 3) == frozenset()


def test_a_groups_box_is_round_all_its_bodies() -> None:
    """Cubes at 0 and at 30 mm: from 0 to 40."""
    boxes = group_boxes([_body("a", 0), _body("b", 1, 7.0), _body("c", 0, 30.0)])

    assert boxes[0].tolist() == [[0.0, 0.0, 0.0], [40.0, 10.0, 10.0]]
    assert boxes[1].tolist() == [[7.0, 0.0, 0.0], [17.0, 10.0, 10.0]]


@pytest.mark.parametrize(
    ("asides", "fixed", "names"),
    [
        (frozenset[int](), False, [("base", "arm"), ("base", "tip")]),
        (frozenset({1}), False, []),
        (frozenset[int](), True, []),
    ],
)
def test_a_pin_never_meets_what_it_goes_through(
    asides: frozenset[int], names: list[tuple[str, str]], *, fixed: bool
) -> None:
    """A pin of the base through the arm: base against arm and tip; nothing with what swings aside, or of fixed size alone."""
    bodies = [_body("base", 0), _body("pin", 0, through=("arm", "tip"), fixed=True), _body("arm", 1), _body("tip", 1)]
    pairs = may_meet(bodies, {frozenset((0, 1))}, asides, fixed=fixed)

    assert [(one.name, other.name) for one, other in pairs] == names


def test_gaps_are_looked_for_a_little_beyond_the_margin() -> None:
    """5 % more than the margin, and what counts as touching; a negative margin is none."""
    assert search_mm(2.0) == pytest.approx(2.1 + TOUCH_MM)
    assert search_mm(-1.0) == TOUCH_MM


def test_joints_move_across_an_axis_where_their_motion_is_flat() -> None:
    """About a parallel axis, or sliding square to it; not about one that is tilted by a degree, nor sliding along it."""
    upright = turns("a", "b", 0.0, 0.0)
    tilted = replace(upright, axis=(math.sin(math.radians(1.0)), 0.0, math.cos(math.radians(1.0))))
    along, beside = (replace(upright, kind="slides", axis=axis) for axis in ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0)))

    assert across(turns("b", "c", 30.0, 0.0, -1.0), upright)
    assert across(beside, upright)
    assert not across(tilted, upright)
    assert not across(along, upright)


def test_what_only_a_cord_holds_swings_aside() -> None:
    """A weight that no joint holds, tied: its group; not where it is the joint's own, nor where nobody ties it."""
    mechanism = Device(
        name="tied",
        solids={**ARMS.solids, "weight": ARMS.solids["arm0"]},
        joints=ARMS.joints,
        ranges=ARMS.ranges,
    ).mechanism()
    tied = replace(mechanism, tied=frozenset({"weight", "arm1"}))
    number = next(n for n, group in enumerate(mechanism.groups) if "weight" in group)

    assert loose_groups(tied, ARMS.joints[1]) == {number}
    assert loose_groups(mechanism, ARMS.joints[1]) == frozenset()


def test_a_bearings_zone_is_all_bores_of_both_and_a_little_more() -> None:
    """Two bores of 3.2 mm, 5 mm deep, end to end: a round 3.8 mm wide and 10.6 mm long (geometry, of 64 sides)."""
    bores = (replace(BORE, centre_mm=(0.0, 0.0, -2.5)), BORE)
    stack = BoreStack(
        bores=tuple(
            PlacedBore(copy=copy, bore=bore, claim=Claim(part=copy, bore=bore, hardware=SCREW, fit="turning"))
            for copy, bore in zip(("base", "arm0"), bores, strict=True)
        )
    )
    mechanism = replace(ARMS.mechanism(), stacks=(stack,))
    zone = bearing_of(mechanism, "arm0", "base")
    radius = 1.6 + BEARING_MM

    assert zone is not None
    assert zone.volume() == pytest.approx(32 * radius**2 * math.sin(math.pi / 32) * (10.0 + 2 * BEARING_MM))
    assert bearing_of(mechanism, "base", "arm1") is None


def test_meetings_are_of_bodies_at_one_height_that_come_by_each_other(make_job: MakeJob) -> None:
    """The upper arm turns: it comes by the lower arm's blocks. The base, two levels below, it never meets.

    Of a fixed size there is nothing to be met; and where the course leads nowhere near, nothing is cut.
    """
    mechanism = ARMS.mechanism()
    joint = mechanism.joints[1]
    bodies, _ = device_bodies(make_job(ARMS.job_text, **ARMS.solids), ARMS.solids, mechanism, 1.0)
    here, there = (mechanism.linkage.moves_at({joint.name: value}) for value in (0.0, 20.0))
    course = course_of(lambda value: mechanism.linkage.moves_at({joint.name: value}), -20.0, 20.0)
    found, fixed = (
        meetings_of(mechanism, bodies, joint, (here, there), 0.0, course, fixed=fixed) for fixed in (False, True)
    )
    clear = replace(course, free=(-30.0, 30.0), between={}, gone={})

    assert {frozenset(meeting.names) for meeting in found} == {frozenset({"arm0", "arm1"})}
    assert fixed == ()
    assert meetings_of(mechanism, bodies, joint, (here, there), 0.0, clear, fixed=False) == ()
