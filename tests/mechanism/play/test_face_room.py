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


@pytest.mark.parametrize("drawn", [-0.4, -0.25, 0.4])
def test_wherever_between_its_faces_it_is_drawn(drawn: float) -> None:
    """The same disc drawn nearer to one cheek, or lying on it, has the same room: it may stand in the middle."""
    cheeks = Manifold.cube((40.0, 40.0, 2.0)).translate((-20, -20, 2.9))
    both = cheeks + cheeks.translate((0, 0, -7.8))
    room = face_room(*_of(device(both, cylinder(16.0, 5.0, 64).translate((0, 0, drawn - 2.5)))), JOINT, TIP)

    assert room.float_mm == pytest.approx(0.4, abs=0.02)
    assert 8.0 * math.sin(room.tilt_rad) + 2.5 * math.cos(room.tilt_rad) == pytest.approx(2.9, abs=0.02)


def test_a_face_on_one_side_holds_nothing() -> None:
    """A disc that lies on a plate lifts off it and tilts as its bore lets it; a second plate screwed on above holds it."""
    plate = Manifold.cube((40.0, 40.0, 2.0)).translate((-20, -20, -4.5))
    disc = cylinder(16.0, 5.0, 64).translate((0, 0, -2.5))
    solids, found = device(plate, disc)
    screwed = MovingJoint(name="screwed", parts=("fork", "lid"), kind="fixed", axis=JOINT.axis, at_mm=(15.0, 15.0, 0.0))
    more = {**solids, "lid": solid_of(plate.translate((0, 0, 7.8)), "lid")}
    whole = Device(name="fork", solids=more, joints=(JOINT, screwed), ranges=found.ranges)

    assert face_room(*_of((solids, found)), JOINT, TIP) == OPEN
    assert face_room(*_of((more, whole)), JOINT, TIP).float_mm == pytest.approx(0.4, abs=0.02)


@pytest.mark.parametrize("drawn", [0.0, 0.3])
def test_cheeks_on_one_side_of_the_pin_let_it_tilt_across_the_whole_gap(drawn: float) -> None:
    """Cheeks that reach from the pin out to 20 mm: the part leans against one of them and tilts by twice 0.4 mm in 20."""
    cheek = Manifold.cube((20.0, 10.0, 2.0)).translate((0, -5, 2.9))
    tongue = Manifold.cube((60.0, 10.0, 5.0)).translate((0, -5, drawn - 2.5))
    room = face_room(*_of(device(cheek + cheek.translate((0, 0, -7.8)), tongue)), JOINT, TIP)

    assert room.tilt_rad == pytest.approx(0.8 / 20.0, rel=0.05)


def test_where_nothing_is_beside_it_or_it_overlaps_as_drawn_the_bores_alone_count() -> None:
    """A disc in the open, and one drawn into its fork."""
    disc = cylinder(16.0, 5.0, 64)
    free = face_room(*_of(device(Manifold.cube((5, 5, 5)).translate((90, 0, 0)), disc)), JOINT, TIP)
    drawn_in = face_room(*_of(device(Manifold.cube((5, 5, 5)), disc)), JOINT, TIP)

    assert free == OPEN
    assert drawn_in == OPEN


def _of(made: tuple[dict[str, Solid], Device]) -> tuple[dict[str, Solid], Mechanism]:
    return made[0], made[1].mechanism()
