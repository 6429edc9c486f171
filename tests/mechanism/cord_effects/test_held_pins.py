"""The pin of a jaw takes the load and the pull that holds it, wherever in the range that is most."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from planner.job import Job
from planner.mechanism.cord_effects.cord_on_joint import StrungCord
from planner.mechanism.cord_effects.held_pins import held_pins
from planner.sourced import stated
from tests.mechanism.cord_effects.one_jaw import OneJaw, one_jaw


@pytest.fixture(name="device", scope="module")
def _device(tmp_path_factory: pytest.TempPathFactory) -> OneJaw:
    return one_jaw(tmp_path_factory.mktemp("one_jaw"))


def _without_friction(job: Job) -> Job:
    """Return a job whose pins turn freely."""
    return replace(job, limits=replace(job.limits, pin_friction=stated(0.0)))


def _by_hand_n(load_n: float, deg: float) -> float:
    """Return the pin's force by moments about it: the load at 60 mm, the cord from the hook at 14 mm to its eye."""
    turn = math.radians(deg)
    hook = 14.0 * math.sin(turn), -14.0 * math.cos(turn)
    way = -60.0 - hook[0], -14.0 - hook[1]
    way = way[0] / math.hypot(*way), way[1] / math.hypot(*way)
    pull_n = load_n * 60.0 / abs(hook[0] * way[1] - hook[1] * way[0])
    load = -load_n * math.sin(turn), load_n * math.cos(turn)
    return math.hypot(pull_n * way[0] + load[0], pull_n * way[1] + load[1])


def test_a_pin_takes_what_moments_about_it_say(device: OneJaw) -> None:
    """15 N at the tip, no friction, no elastic: statics at each angle by hand, within the jaw's own weight of some 2 g."""
    job = _without_friction(device.job)
    strung = {name: one for name, one in device.strung(job).items() if name == "pull"}
    cord = strung["pull"]
    assert isinstance(cord, StrungCord)
    angles = cord.run(1.0, cord.legs[0]).angles_deg
    found = held_pins(job, device.solids, strung, 15.0)

    most_n = pytest.approx(max(_by_hand_n(15.0, deg) for deg in angles), rel=2e-3)
    assert found == {("plate", "b1"): most_n, ("jaw", "b1"): most_n}
    assert found["jaw", "b1"] > 4.0 * 15.0


def test_the_most_friction_and_the_elastic_count(device: OneJaw) -> None:
    """Both make the cord pull harder, and so its pin; a cord whose grip nobody places tells nothing."""
    free = _without_friction(device.job)
    alone = {name: one for name, one in device.strung(free).items() if name == "pull"}
    least = held_pins(free, device.solids, alone, 15.0)["jaw", "b1"]
    most = held_pins(device.job, device.solids, device.strung(), 15.0)["jaw", "b1"]
    nowhere = device.with_cord(grip_at_mm=None)

    assert most > least
    assert held_pins(nowhere, device.solids, device.strung(nowhere), 15.0) == {}
