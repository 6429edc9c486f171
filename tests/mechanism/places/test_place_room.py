"""Room beside what stands: overlaps by volume, and two places that are one, turned about an axis."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from planner.mechanism.places.axis_fits import Axis
from planner.mechanism.places.frame import STILL, Frame
from planner.mechanism.places.place_room import OVERLAP_SHARE, Room
from planner.mesh import Solid
from tests.shapes import Manifold, cuboid, solid_of

CUBE = cuboid(10, 10, 10)
OPEN = Solid(name="open", vertices_mm=CUBE.vertices_mm, faces=CUBE.faces[1:], sha256="open")
BAR = solid_of(Manifold.cube((20, 6, 4)).translate((0, -3, 0)))


def _by(x_mm: float, y_mm: float = 0.0) -> Frame:
    """Return a move in the plane."""
    return Frame(turn=np.eye(3), shift_mm=np.array([x_mm, y_mm, 0.0]))


def _room(**frames: Frame) -> Room:
    """Return a room of cubes that stand."""
    return Room(solids={"cube": CUBE, "open": OPEN, "bar": BAR}, frames=dict(frames))


@pytest.mark.parametrize(
    ("inside_share", "free"), [(-0.1, True), (0.0, True), (OVERLAP_SHARE - 1e-4, True), (OVERLAP_SHARE + 1e-4, False)]
)
def test_a_piece_may_press_into_another_by_the_share_only(inside_share: float, free: bool) -> None:
    """Cubes of 10 mm that overlap by a slab of so much of their depth: free up to the share, not beyond."""
    assert _room(cube=STILL).free(["cube#2"], _by(10.0 * (1.0 - inside_share))) is free


def test_all_of_a_piece_must_be_free_and_known() -> None:
    """A piece of two is not free where one is inside another copy; a mesh with faults is never known to be free."""
    room = _room(cube=STILL)

    assert room.free(["bar"], _by(10.0))
    assert not room.free(["bar", "cube#2"], _by(-5.0))
    assert not room.free(["open"], _by(50.0))
    assert _room(open=STILL).free(["cube#2"], STILL)  # what stands there with faults bars nothing


@pytest.fixture(name="axis", scope="module")
def _axis() -> Axis:
    """Return an upright axis through (10, 10)."""
    bore: Any = SimpleNamespace(axis=(0.0, 0.0, 1.0), centre_mm=(10.0, 10.0, 2.0))
    return Axis(hardware="pin", bores=(bore,), owners=("plate",))


def test_places_turned_about_an_axis_are_one_where_the_piece_may_turn(axis: Axis) -> None:
    """A bar turned by 70 degrees about the axis is the same there, another without; a bar moved away never is."""
    room = _room()
    turned = STILL.turned_about(axis.way, axis.at_mm, 70.0)

    assert room.same(["bar"], STILL, turned, axis)
    assert not room.same(["bar"], STILL, turned, None)
    assert room.same(["bar"], STILL, STILL, None)
    assert not room.same(["bar"], STILL, _by(3.0), axis)
