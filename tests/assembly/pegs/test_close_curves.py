"""What lies in curved faces of another part is found with its room, by closed forms; what lies free, or on one, is not."""

from __future__ import annotations

import math

import pytest
from manifold3d import Manifold

from planner.assembly import CloseFit, close_fits
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cuboid, cylinder, solid_of

TEXT = '[job]\nname = "x"\n' + "".join(f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\nduty = "shell"\n' for n in "ab")
BALL = Manifold.sphere(8.0, 64) + cylinder(8.0, 30.0, 64).translate((0, 0, -36))


def _curved(make_job: MakeJob, a: Manifold, b: Manifold) -> list[CloseFit]:
    solids = {"a": solid_of(a, "a"), "b": solid_of(b, "b")}
    bare = dict.fromkeys(
        solids, survey(cuboid(20, 20, 5))
    )  # no round pegs and bores: what is curved is all that counts
    found = close_fits(make_job(TEXT, **solids), solids, bare)
    return [one for one in found if one.curved]


def _socket(room_mm: float) -> Manifold:
    shell = Manifold.sphere(10.7, 64) - Manifold.sphere(8.0 + room_mm / 2, 64)
    return shell - Manifold.cube((40.0, 40.0, 20.0), True).translate((0, 0, -14.5))


@pytest.mark.parametrize("room_mm", [0.4, 0.2])
def test_a_ball_lies_in_its_socket_with_its_room(make_job: MakeJob, room_mm: float) -> None:
    """A ball of 16 mm in a socket wider by the room; the ball lies in the socket, not the socket about the ball."""
    (found,) = _curved(make_job, BALL, _socket(room_mm))

    assert (found.inner, found.outer) == ("a", "b")
    assert found.room_mm == pytest.approx(room_mm, abs=0.02)
    assert found.width_mm == pytest.approx(16.0, abs=0.2)


def test_a_cone_lifted_out_has_the_room_of_its_slope(make_job: MakeJob) -> None:
    """Lifted by 1 mm, a cone of 10 degrees is 1 mm times sin 10 degrees off its seat on every side: geometry."""
    slope = math.tan(math.radians(10.0))
    plug = Manifold.cylinder(30.0, 10.0, 10.0 + 30.0 * slope, 64)
    cup = cylinder(50.0, 26.0, 64).translate((0, 0, 2)) - plug
    (found,) = _curved(make_job, plug.translate((0, 0, 1.0)), cup)

    assert found.room_mm == pytest.approx(2.0 * math.sin(math.radians(10.0)), abs=0.02)


def test_what_lies_on_a_curved_face_or_free_in_it_is_not_in_it(make_job: MakeJob) -> None:
    """A shell on a dome touches it from one side; a ball with 2 mm of room lies free."""
    dome = Manifold.sphere(30.0, 64).trim_by_plane((0, 0, 1), 22.0)
    cap = (Manifold.sphere(33.0, 64) - Manifold.sphere(30.1, 64)).trim_by_plane((0, 0, 1), 24.0)

    assert _curved(make_job, dome, cap) == []
    assert _curved(make_job, BALL, _socket(2.0)) == []
