"""Room beside a part on its pin."""

from __future__ import annotations

import math

import pytest

from planner.mechanism import Mechanism, MovingJoint
from planner.mechanism.play.face_room import OPEN, face_room
from planner.mesh import Solid
from tests.mechanism.invented import Device
from tests.shapes import Manifold, cylinder, solid_of

JOINT = MovingJoint(
    name="fork to disc", parts=("fork", "disc"), kind="turns", axis=(0.0, 0.0, 1.0), at_mm=(0.0, 0.0, 0.0)
)
TIP = (60.0, 0.0, 0.0)


def device(fork: Manifold, disc: Manifold) -> tuple[dict[str, Solid], Device]:
    """Return a fork and what turns in it, as drawn."""
    solids = {"fork": solid_of(fork, "fork"), "disc": solid_of(disc, "disc")}
    return solids, Device(name="fork", solids=solids, joints=(JOINT,), ranges={JOINT.name: (None, None)})


def test_a_disc_between_two_cheeks() -> None:
    """5 mm thick and 8 mm in radius with 0.4 mm at each face: it floats 0.4 mm, and tilts until its rim has taken that."""
    cheeks = Manifold.cube((40.0, 40.0, 2.0)).translate((-20, -20, 2.9))
    solids, found = device(cheeks + cheeks.translate((0, 0, -7.8)), cylinder(16.0, 5.0, 64).translate((0, 0, -2.5)))
    room = face_room(solids, found.mechanism(), JOINT, TIP)

    assert room.float_mm == pytest.approx(0.4, abs=0.02)
    tilt = room.tilt_rad
    assert 8.0 * math.sin(tilt) + 2.5 * math.cos(tilt) == pytest.approx(2.9, abs=0.02)


def test_where_nothing_is_beside_it_or_it_overlaps_as_drawn_the_bores_alone_count() -> None:
    """A disc in the open, and one drawn into its fork."""
    disc = cylinder(16.0, 5.0, 64)
    free = face_room(*_of(device(Manifold.cube((5, 5, 5)).translate((90, 0, 0)), disc)), JOINT, TIP)
    drawn_in = face_room(*_of(device(Manifold.cube((5, 5, 5)), disc)), JOINT, TIP)

    assert free.tilt_rad == math.inf
    assert free.float_mm == 0.0
    assert drawn_in == OPEN


def _of(made: tuple[dict[str, Solid], Device]) -> tuple[dict[str, Solid], Mechanism]:
    return made[0], made[1].mechanism()
