"""What joints state, copy by copy: pads on jaws, told by distance; by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from planner.mechanism.joints.stated_joints import NEAR_MM, distance_mm, stated_joints
from planner.mechanism.places.frame import STILL, Frame
from planner.mesh import Solid
from tests.conftest import MakeJob
from tests.shapes import cuboid

CUBE = cuboid(10, 10, 10)
OPEN = Solid(name="open", vertices_mm=CUBE.vertices_mm, faces=CUBE.faces[1:], sha256="open")
SOLIDS = {"jaw": CUBE, "pad": CUBE}


def _at(x_mm: float) -> Frame:
    """Return a place along x; cubes of 10 mm there stand 10 mm less than this apart."""
    return Frame(turn=np.eye(3), shift_mm=np.array([x_mm, 0.0, 0.0]))


def _stated(
    make_job: MakeJob, joints: str, frames: dict[str, Frame], stacks: tuple[Any, ...] = ()
) -> dict[tuple[str, str], str]:
    """Return how every two copies are stated to be joined; two jaws and as many pads as there are frames of pads."""
    pads = sum(copy.startswith("pad") for copy in frames)
    text = '[job]\nname = "x"\nmaterial = "petg"\n'
    for name, count in (("jaw", 2), ("pad", pads)):
        text += f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\ncount = {count}\n'
    job = make_job(text + joints, **SOLIDS)
    return {pair: joint.how for pair, joint in stated_joints(job, SOLIDS, frames, stacks).items()}


def _joint(one: str, other: str, how: str) -> str:
    """Return a statement."""
    return f'[[joint]]\nbetween = ["{one}", "{other}"]\nhow = "{how}"\n'


APART = {"jaw": _at(0), "jaw#2": _at(100), "pad": _at(112), "pad#2": _at(13)}
"""The first jaw 3 mm beside the second pad, the second jaw 2 mm beside the first one; the pairs 77 mm apart."""


def test_a_statement_holds_for_the_copies_that_are_near_each_other(make_job: MakeJob) -> None:
    """Jaws and pads: each jaw with the pad beside it, whatever their numbers, the jaw first as stated."""
    assert _stated(make_job, _joint("jaw", "pad", "fixed"), APART) == {
        ("jaw", "pad#2"): "fixed",
        ("jaw#2", "pad"): "fixed",
    }


def test_a_copy_between_two_goes_with_the_nearer(make_job: MakeJob) -> None:
    """Three pads, one of them 2 mm from the first jaw and 4 mm from the second: each pad has one jaw, a jaw may have two."""
    frames = {"jaw": _at(0), "jaw#2": _at(26), "pad": _at(12), "pad#2": _at(-11), "pad#3": _at(37)}

    assert set(_stated(make_job, _joint("jaw", "pad", "fixed"), frames)) == {
        ("jaw", "pad"),
        ("jaw", "pad#2"),
        ("jaw#2", "pad#3"),
    }


def test_copies_on_one_axis_are_meant_however_far_apart(make_job: MakeJob) -> None:
    """A pin through the first jaw and the second pad, 590 mm apart: they are meant, and no other pair is near."""
    stack = SimpleNamespace(copies=("pad#2", "jaw"))
    far = {"jaw": _at(0), "jaw#2": _at(300), "pad": _at(112), "pad#2": _at(600)}

    assert set(_stated(make_job, _joint("jaw", "pad", "turns"), far, (stack,))) == {("jaw", "pad#2")}


def test_where_no_copies_are_near_the_statement_is_taken_by_its_names(make_job: MakeJob) -> None:
    """Nothing within 5 mm: what it names, the first copies, so that nothing stated is lost."""
    far = {"jaw": _at(0), "jaw#2": _at(300), "pad": _at(112), "pad#2": _at(600)}

    assert set(_stated(make_job, _joint("jaw", "pad", "fixed"), far)) == {("jaw", "pad")}


def test_how_copies_move_stands_before_how_they_are_held(make_job: MakeJob) -> None:
    """Tied and turning: they turn, whichever is stated first; and what names two copies stands before what names parts."""
    both = _joint("jaw", "pad", "tied") + _joint("jaw", "pad", "turns")
    own = _joint("jaw", "pad", "turns") + _joint("jaw#2", "pad#1", "fixed")

    assert set(_stated(make_job, both, APART).values()) == {"turns"}
    assert _stated(make_job, own, APART) == {("jaw", "pad#2"): "turns", ("jaw#2", "pad"): "fixed"}


@pytest.mark.parametrize(
    ("one", "other", "apart_mm"),
    [
        (STILL, _at(13), 3.0),
        (STILL, _at(10 + NEAR_MM), NEAR_MM),
        (STILL, _at(10.1 + NEAR_MM), math.inf),
        (STILL, None, math.inf),
    ],
)
def test_distance_is_that_of_the_faces_and_endless_beyond_what_matters(
    one: Frame, other: Frame | None, apart_mm: float
) -> None:
    """Cubes of 10 mm: 13 mm from origin to origin is 3 mm; past 5 mm, or where a place or a sound mesh lacks, it is endless."""
    frames = {"jaw": one} | ({"pad": other} if other else {})

    assert distance_mm(SOLIDS, frames, "jaw", "pad") == pytest.approx(apart_mm)
    assert distance_mm({"jaw": CUBE, "pad": OPEN}, {"jaw": one, "pad": one}, "jaw", "pad") == math.inf
