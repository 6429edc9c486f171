"""What a load at the tip does to each copy is in balance about the joint."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import pytest

from planner.mechanism.cord_effects.cord_on_joint import StrungCord
from planner.mechanism.cord_effects.tip_loads import CopyLoads, tip_loads, tips
from planner.plan import Prepared
from tests.mechanism.cord_effects.one_jaw import OneJaw, one_jaw

TIP_MM = (60.0, 0.0, 2.5)


@pytest.fixture(name="device", scope="module")
def _device(tmp_path_factory: pytest.TempPathFactory) -> OneJaw:
    return one_jaw(tmp_path_factory.mktemp("one_jaw"))


def _states(device: OneJaw, strung: Mapping[str, StrungCord | str]) -> tuple[CopyLoads, ...]:
    return tip_loads(device.job, device.solids, device.mechanism.frames, strung, 15.0)


def _at_tip_n(state: CopyLoads) -> float:
    """Return all force at the jaw's tip in a state."""
    return sum(float(np.linalg.norm(load.force_n)) for load in state["jaw"] if load.at_mm == pytest.approx(TIP_MM))


def _cord(device: OneJaw) -> StrungCord:
    one = device.strung()["pull"]
    assert isinstance(one, StrungCord)
    return one


def test_cords_on_one_joint_hold_the_tip_one_at_a_time(device: OneJaw) -> None:
    """Two cords on the jaw's joint: two states, each with the whole 15 N at the tip, never with twice that."""
    one = _cord(device)

    alone, both = _states(device, {"pull": one}), _states(device, {"pull": one, "twin": one})

    assert len(alone) == 1
    assert both == (*alone, *alone)
    assert _at_tip_n(both[1]) == pytest.approx(15.0)


def test_cords_on_different_joints_of_a_finger_hold_one_load_together(device: OneJaw) -> None:
    """A second cord about another joint of the same finger pulls at the same time: 15 N at the tip, and twice the cord."""
    one = _cord(device)
    leg = one.legs[0]
    other = replace(one, legs=(replace(leg, joint=replace(leg.joint, name="another")),))

    (alone,), (both,) = _states(device, {"pull": one}), _states(device, {"pull": one, "other": other})

    assert _at_tip_n(both) == pytest.approx(15.0)
    assert sum(load == alone["jaw"][0] for load in both["jaw"]) == 2


def test_a_stop_near_the_open_end_leaves_one_joint_as_it_was(device: OneJaw) -> None:
    """Of one joint alone nothing else can hold the load: its cord does, whether it stops or not."""
    one = _cord(device)
    stopped = replace(one, legs=(replace(one.legs[0], on_stop=True),))

    assert _states(device, {"pull": stopped}) == _states(device, {"pull": one})


def test_the_jaws_moments_cancel_about_its_post(heron_ready: Prepared) -> None:
    """Cord, load and elastic turn the jaw about its bore by nothing but the pin's friction: statics, from the mesh's origin."""
    moving = heron_ready.movement
    assert moving is not None
    (state,) = moving.tip_loads(20.0)
    loads = state["jaw"]
    moments = np.array([np.cross(load.at_mm, load.force_n)[2] for load in loads])

    assert abs(moments.sum()) < 0.1 * np.abs(moments).sum()
    assert max(float(np.linalg.norm(load.force_n)) for load in loads) > 60.0


def test_a_tip_is_pushed_across_axis_and_arm(heron_ready: Prepared) -> None:
    """The whole load, square to the line from post to tip, and in the jaw's plane."""
    moving = heron_ready.movement
    assert moving is not None
    (load,) = moving.tips(20.0)["jaw"]

    assert np.linalg.norm(load.force_n) == pytest.approx(20.0)
    assert np.dot(load.force_n, load.at_mm) == pytest.approx(0.0, abs=0.1)


def test_two_cords_that_grip_at_two_places_load_both(device: OneJaw) -> None:
    """A second cord on the jaw grips 20 mm farther in: its load is one more; a twin at the same place adds none."""
    one = _cord(device)
    inner = replace(one, cord=replace(one.cord, grip_at_mm=(40.0, 0.0, 2.5)))
    frames = device.mechanism.frames

    loads = tips(device.job, frames, {"pull": one, "inner": inner}, 15.0)["jaw"]

    assert {load.at_mm for load in loads} == {(60.0, 0.0, 2.5), (40.0, 0.0, 2.5)}
    assert all(np.linalg.norm(load.force_n) == pytest.approx(15.0) for load in loads)
    assert len(tips(device.job, frames, {"pull": one, "twin": one}, 15.0)["jaw"]) == 1
