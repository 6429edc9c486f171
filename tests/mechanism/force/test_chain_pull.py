"""Three segments on one cord: the hardest joint sets the pull, the easiest the grip, unless a stop holds it."""

from __future__ import annotations

import pytest

from planner.mechanism.cord_effects.tip_loads import held_pulls
from planner.mechanism.force.chain_pull import chain_grips, under_one_load
from planner.mechanism.force.driven_joint import DrivenJoint
from planner.mechanism.force.friction import Friction
from tests.mechanism.force.finger import SHARES, finger, needs_n

SMOOTH = (Friction(), Friction(), Friction())
NO_LIMIT_N = 1e9
BASE_ON_STOP = (True, False, False)


@pytest.fixture(name="free", scope="module")
def _free() -> list[DrivenJoint]:
    return under_one_load(finger())


@pytest.fixture(name="stopped", scope="module")
def _stopped() -> list[DrivenJoint]:
    return under_one_load(finger(BASE_ON_STOP))


def test_the_pull_is_what_the_hardest_joint_needs(free: list[DrivenJoint]) -> None:
    """10 N across the last segment: the base needs 10 N x 76/9 = 84 N drawn straight, its tip joint 22 N; and bent."""
    pulls = held_pulls(free, 10.0, SMOOTH, NO_LIMIT_N)[1]
    by_hand = [needs_n(share, 10.0) for share in SHARES]

    assert by_hand[0] == pytest.approx((200.0 / 9.0, 460.0 / 9.0, 760.0 / 9.0))
    assert pulls == [pytest.approx((max(each), max(each)), rel=1e-4) for each in by_hand]


def test_the_grip_is_what_the_easiest_joint_lets_go(free: list[DrivenJoint]) -> None:
    """24 N of pull: 24 N x 9/76 = 2.8 N drawn straight, and no more with the least friction; not the tip joint's 10.8 N."""
    grips = [place[0] for place in chain_grips(free, 24.0, SMOOTH)]
    by_hand = [24.0 / max(needs_n(share, 1.0)) for share in SHARES]

    assert by_hand[0] == pytest.approx(24.0 * 9.0 / 76.0)
    assert grips == [pytest.approx((each, each), rel=1e-4) for each in by_hand]


def test_a_stop_makes_a_range_of_both(stopped: list[DrivenJoint]) -> None:
    """Where the base may rest on its stop, the middle joint decides at one end and the base at the other."""
    pulls, grips = held_pulls(stopped, 10.0, SMOOTH, NO_LIMIT_N)[1], chain_grips(stopped, 24.0, SMOOTH)

    for share, pull, (grip, *_) in zip(SHARES, pulls, grips, strict=True):
        tip, middle, base = needs_n(share, 10.0)
        assert pull == pytest.approx((max(tip, middle), max(tip, middle, base)), rel=1e-4)
        assert grip == pytest.approx((240.0 / max(tip, middle, base), 240.0 / max(tip, middle)), rel=1e-4)


def test_what_stops_save_is_not_pulled_harder_than_can_be_kept_up(stopped: list[DrivenJoint]) -> None:
    """60 N at most: less than the base's 84 N, which its stop may take; 40 N: the middle joint's 51 N are needed still."""
    first = [held_pulls(stopped, 10.0, SMOOTH, most_n)[1][0][1] for most_n in (60.0, 40.0)]

    assert first == pytest.approx([60.0, 460.0 / 9.0], rel=1e-4)
