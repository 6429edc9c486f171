"""Cords over a range: travel and arm against closed forms of levers (textbook, from memory)."""

from __future__ import annotations

import math

import pytest

from planner.mechanism.cord.cord_run import CordRun, jumps_of, run_of
from planner.mechanism.cord.path.path_stop import LineStop, PathStop, PointStop, WrapStop
from planner.mechanism.cord.small_moves import FramesAt, motions_over
from tests.mechanism.cord.hinged import hinge

Z = (0.0, 0.0, 1.0)
ANGLES = [float(deg) for deg in range(0, 61, 5)]


def run(*stops: PathStop, s: float = 1.0, cord_mm: float = 0.0, frames: FramesAt = hinge) -> CordRun:
    return run_of(stops, motions_over(frames, ANGLES), s, cord_mm)


def hook(x: float, y: float) -> PointStop:
    return PointStop(copy="jaw", at_mm=(x, y, 0.0))


EYE = PointStop(copy="base", at_mm=(-100.0, 8.0, 0.0))


def test_the_arm_of_a_hook_on_a_disc_is_r_sin() -> None:
    """|dL/dtheta| is the hook's radius times the sine of the angle between radius and cord, its sign that of the turn."""
    got = run(EYE, hook(0.0, 15.0))
    for angle, arm, length in zip(got.angles_deg, got.arm_mm, got.length_mm, strict=True):
        x, y = -15.0 * math.sin(math.radians(angle)), 15.0 * math.cos(math.radians(angle))
        cord = (x + 100.0, y - 8.0)
        sine = (x * cord[1] - y * cord[0]) / (15.0 * math.hypot(*cord))

        assert length == pytest.approx(math.hypot(*cord), abs=1e-9)
        assert arm == pytest.approx(15.0 * sine, abs=1e-6)
    assert all(arm < 0.0 for arm in got.arm_mm)  # it shortens as the angle grows
    assert got.angles_deg[got.closed] == 60.0


@pytest.mark.parametrize("s", [0.5, 1.0, 1.7])
def test_a_cord_wound_on_a_disc_has_the_radius_as_its_arm(s: float) -> None:
    """Arm = printed radius at size + half the cord, at every angle, and the pull turns it on; travel = arm x angle."""
    drum = WrapStop(copy="jaw", axis=Z, centre_mm=(0.0, 0.0, 0.0), drawn_mm=12.0, sense=-1)
    got = run(EYE, drum, hook(12.0, 0.0), s=s, cord_mm=1.0)
    arm = 12.0 * s + 0.5

    assert got.arm_mm == pytest.approx([-arm] * len(ANGLES), abs=1e-6)
    assert got.travel_mm == pytest.approx(arm * math.radians(60.0), abs=1e-9)
    assert all(not rubs for rubs in got.rubs)  # the drum goes with the cord


def test_a_screw_keeps_its_radius_at_every_size() -> None:
    """A wrap over bought hardware: its arm about its own axis does not scale."""
    post = WrapStop(copy="jaw", axis=Z, centre_mm=(0.0, 0.0, 0.0), bought_mm=2.5, sense=-1)
    for s in (0.5, 1.5):
        assert run(EYE, post, hook(2.0, 0.0), s=s, cord_mm=1.0).arm_mm == pytest.approx([-3.0] * len(ANGLES), abs=1e-6)


def test_a_channel_in_the_moving_part_pulls_at_its_mouth() -> None:
    """A cord knotted behind a channel has the same lengths as one hooked at the channel's mouth, plus the channel."""
    line = LineStop(copy="jaw", line_mm=((0.0, 15.0, 0.0), (6.0, 15.0, 0.0)))
    through, hooked = run(EYE, line), run(EYE, hook(0.0, 15.0))

    assert through.length_mm == pytest.approx([length + 6.0 for length in hooked.length_mm], abs=1e-9)
    assert through.arm_mm == pytest.approx(hooked.arm_mm, abs=1e-9)


def test_a_joint_that_slides_asks_for_its_way() -> None:
    """Pulled straight along its slot, a slide of 60 mm takes 60 mm of cord, at size."""
    eye, end = PointStop(copy="base", at_mm=(-10.0, 0.0, 0.0)), PointStop(copy="slide", at_mm=(0.0, 0.0, 0.0))
    got = run_of([eye, end], motions_over(hinge, ANGLES, slides=True), 1.2, 1.0)

    assert got.travel_mm == pytest.approx(72.0, abs=1e-9)
    assert got.arm_mm == pytest.approx([1.0] * len(ANGLES), abs=1e-9)


def test_past_dead_centre_the_pull_turns_the_joint_back() -> None:
    """A hook in line with eye and axis has no arm: the angle is named."""
    eye = PointStop(copy="base", at_mm=(-100.0, 0.0, 0.0))
    turn = math.radians(143.0)
    got = run(eye, hook(15.0 * math.cos(turn), 15.0 * math.sin(turn)))

    assert got.dead_deg == pytest.approx([37.0], abs=0.01)
    assert got.travel_mm > abs(got.length_mm[0] - got.length_mm[-1])


def test_an_axis_that_is_passed_just_at_a_place_is_passed() -> None:
    """The arm is nothing at a place that is looked at, 40 degrees: before and behind it have either sign."""
    eye, turn = PointStop(copy="base", at_mm=(-100.0, 0.0, 0.0)), math.radians(140.0)
    got = run(eye, hook(15.0 * math.cos(turn), 15.0 * math.sin(turn)))

    assert 40.0 in got.angles_deg
    assert got.dead_deg == pytest.approx([40.0], abs=0.01)


def test_a_length_that_jumps_is_told() -> None:
    """A frame that leaps, as where a closed loop snaps over, is no motion that a cord can follow."""
    leaps = run(EYE, hook(0.0, 15.0), frames=lambda deg: hinge(deg if deg < 32.0 else deg + 90.0))

    assert [leaps.angles_deg[k] for k in jumps_of([leaps])] == [30.0]
    assert jumps_of([run(EYE, hook(0.0, 15.0))]) == ()
