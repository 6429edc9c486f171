"""Cords on their joints."""

from __future__ import annotations

import pytest

from planner.job import PathPoint
from planner.mechanism.cord_effects.chain import chain_to
from planner.mechanism.cord_effects.cord_on_joint import StrungCord
from tests.mechanism.cord_effects.one_jaw import OneJaw, one_jaw


@pytest.fixture(name="device", scope="module")
def _device(tmp_path_factory: pytest.TempPathFactory) -> OneJaw:
    return one_jaw(tmp_path_factory.mktemp("one_jaw"))


def test_a_cord_finds_the_joint_of_the_part_that_it_drives(device: OneJaw) -> None:
    """Over what the joint ought to reach, with the jaw alone moving, and the joint as its only link to what stands."""
    pull = device.strung()["pull"]

    assert isinstance(pull, StrungCord)
    assert pull.joint.name == "plate to jaw"
    assert pull.legs[0].moving == frozenset({"jaw"})
    assert (pull.legs[0].motions[0].at_deg, pull.legs[0].motions[-1].at_deg) == (0.0, 40.0)
    assert [joint.name for joint in chain_to(device.mechanism, "jaw")] == ["plate to jaw"]
    assert chain_to(device.mechanism, "plate") == ()


def test_what_cannot_be_strung_is_said(device: OneJaw) -> None:
    """A cord that ends on what stands drives nothing, an unknown point is named, a cord without a path is left out."""
    stands = (PathPoint(copy="jaw", feature="hook"), PathPoint(copy="plate", at_mm=(0.0, 0.0, 9.0)))
    wrong = (PathPoint(copy="plate", at_mm=(0.0, 0.0, 9.0)), PathPoint(copy="jaw", feature="hok"))

    assert device.strung(device.with_cord(path=stands, drives=""))["pull"] == (
        "nothing that moves is known to carry plate, which pull drives"
    )
    assert "did you mean 'hook'" in str(device.strung(device.with_cord(path=wrong))["pull"])
    assert "pull" not in device.strung(device.with_cord(path=()))
