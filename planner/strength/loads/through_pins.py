"""What a mechanism does to a part, as loads on it: what a joint passes comes in over the part's own bores."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planner.finding import Vec3
from planner.mechanism import PointLoad
from planner.strength.loads.part_load import PartLoad, Support, answers_of


def all_pushes_of(loads: Sequence[PointLoad], supports: Sequence[Support]) -> list[PartLoad]:
    """Return all loads of a mechanism on a part, those in its bores first: what nothing else holds is clamped there."""
    return sorted((push for one in loads for push in pushes_of(one, supports)), key=lambda push: not push.over)


def pushes_of(load: PointLoad, supports: Sequence[Support]) -> list[PartLoad]:
    """Return a load of a mechanism as loads on a part, in its mesh.

    What a joint passes is known on the joint's line, often beside the part. The part's bores on the pin share it as
    they would hold it: what they give back, turned round, is what they bring in.
    """
    push = PartLoad(at_mm=load.at_mm, force_n=load.force_n, couple_n_mm=load.couple_n_mm)
    bores = [one for one in supports if one.over in load.over]
    if not bores:
        return [push]
    return [
        replace(one, force_n=_turned(one.force_n), couple_n_mm=_turned(one.couple_n_mm))
        for one in answers_of([push], bores)
    ]


def _turned(way: Vec3) -> Vec3:
    """Return a vector turned round."""
    x, y, z = way
    return -x, -y, -z
