"""A device's cords at size against a lever worked out by hand."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from planner.mechanism.strung.cord_moves import CordMoves, cord_moves
from tests.mechanism.strung.one_jaw import OneJaw, one_jaw


@pytest.fixture(name="device", scope="module")
def _device(tmp_path_factory: pytest.TempPathFactory) -> OneJaw:
    return one_jaw(tmp_path_factory.mktemp("one_jaw"))


def moves(device: OneJaw, factor: float = 1.0, **changes: object) -> CordMoves:
    """Return what its cords do, with changes to the pulling one."""
    job = device.with_cord(**changes)
    return cord_moves(job, device.solids, device.strung(job), factor)


def length_mm(deg: float, factor: float) -> float:
    """Return the way from the eye to the hook, 14 mm from the axis."""
    x, y = 14.0 * math.sin(math.radians(deg)), -14.0 * math.cos(math.radians(deg))
    return factor * math.hypot(x + 60.0, y + 14.0)


@pytest.mark.parametrize("factor", [0.7, 1.0, 1.6])
def test_travel_arms_and_what_the_wrist_gives(device: OneJaw, factor: float) -> None:
    """Travel is the difference of two chords at size; 40 mm of wrist over 40 degrees give 27.9 mm at every size."""
    (move,) = moves(device, factor).cords

    assert move.travel_mm == pytest.approx(length_mm(40.0, factor) - length_mm(0.0, factor), abs=1e-6)
    assert move.length_mm == pytest.approx((length_mm(40.0, factor), length_mm(0.0, factor)), abs=1e-6)
    assert move.has_mm == pytest.approx(40.0 * math.radians(40.0))
    slope = (length_mm(40.001, factor) - length_mm(39.999, factor)) / math.radians(0.002)
    assert move.arm_mm is not None
    assert move.arm_mm[1] == pytest.approx(slope, abs=1e-4)
    assert not move.unknown


def test_the_pull_is_lever_elastic_and_friction_together(device: OneJaw) -> None:
    """With no friction of the pin, at its low end: 10 N x 60 mm and the band's moment over the cord's arm."""
    quiet = replace(device.job.limits.pin_friction, low=0.0)
    job = replace(device.job, limits=replace(device.job.limits, pin_friction=quiet))
    (move,) = cord_moves(job, device.solids, device.strung(), 1.0).cords
    most = max(
        (600.0 + (5.0 - 0.1 * (_band_mm(0.0) - _band_mm(deg))) * _slope(_band_mm, deg)) / _slope(_pull_mm, deg)
        for deg in (point[0] for point in move.curve_n)
    )

    assert move.pull_n is not None
    assert move.pull_n[0] == pytest.approx(most, rel=1e-4)
    assert move.pull_n[0] < move.pull_n[1] < move.pull_n[2]
    assert move.elastic == "band"
    assert move.back_n_mm is not None
    assert move.back_n_mm > 0.0


def _pull_mm(deg: float) -> float:
    return length_mm(deg, 1.0)


def _band_mm(deg: float) -> float:
    return math.hypot(-10.0 * math.sin(math.radians(deg)) + 60.0, 10.0 * math.cos(math.radians(deg)) - 10.0)


def _slope(length: Callable[[float], float], deg: float) -> float:
    return abs(length(deg + 0.001) - length(deg - 0.001)) / math.radians(0.002)


def test_two_cords_in_one_hand_ask_for_both_pulls(device: OneJaw) -> None:
    """Two of the kind, tied or over a bar, take twice one's pull."""
    one, two = (moves(device, count=n, equaliser="bar").cords[0] for n in (1, 2))

    assert one.pull_n is not None
    assert two.pull_n == pytest.approx([2.0 * pull for pull in one.pull_n])


def test_forces_on_the_pin_and_on_every_stop_are_in_balance(device: OneJaw) -> None:
    """The eye and the hook are pulled toward each other; the pin carries the cord, the band, the grip and the weight."""
    found = {one.hardware: one.force_n for one in moves(device).pins}
    eye, hook = found["pull at plate:[-60.0, -14.0, 7.5]"], found["pull at jaw:hook"]

    assert eye == pytest.approx([-force for force in hook])
    assert math.hypot(*hook) == pytest.approx(moves(device).cords[0].pull_n[2])  # type: ignore[index]
    assert math.hypot(*found["pin"]) > math.hypot(*hook) - 10.0 - 5.0 - 1.0


def test_what_is_not_known_is_said_and_what_is_not_asked_is_left_open(device: OneJaw) -> None:
    """Without a tip no pull is told; without a grip travel alone; past the axis the cord turns the jaw back."""
    assert moves(device, grip_at_mm=None).cords[0].unknown == (
        "where jaw grips is not stated: write grip_at_mm of pull"
    )
    calm = replace(device.job, use=replace(device.job.use, grip_n=None))
    free = cord_moves(calm, device.solids, device.strung(), 1.0).cords[0]
    assert free.travel_mm is not None
    assert free.pull_n is None
    point = device.job.points[0]
    past = replace(device.job, points=(replace(point, at_mm=(-13.9, 1.7, 2.5)),))
    dead = cord_moves(past, device.solids, device.strung(past), 1.0).cords[0]
    assert "passes the joint's axis" in dead.unknown
