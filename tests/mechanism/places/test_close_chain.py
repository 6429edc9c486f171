"""Chains closed by turning what may still turn: a triangle by the law of cosines, and none where none closes."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from planner.mechanism.places.axis_fits import Axis
from planner.mechanism.places.close_chain import close_chain
from planner.mechanism.places.frame import STILL
from planner.mechanism.places.place_room import Room

BASE_MM, ARM_MM = 100.0, 60.0
DRAWN_DEG = 140.0


def _axis(x: float, y: float, owner: str) -> Axis:
    """Return an upright axis."""
    bore: Any = SimpleNamespace(axis=(0.0, 0.0, 1.0), centre_mm=(x, y, 0.0))
    return Axis(hardware="pin", bores=(bore,), owners=(owner,))


def _end() -> tuple[float, float]:
    """Return where the arm's far axis is drawn: the arm hangs at (100, 0)."""
    turn = math.radians(DRAWN_DEG)
    return BASE_MM + ARM_MM * math.cos(turn), ARM_MM * math.sin(turn)


def _closed(long_mm: float, free: dict[str, str]) -> tuple[bool, Room]:
    """Close a chain of base, arm and a bar of a length; return whether it did, and what stands."""
    room = Room(solids={}, frames={"base": STILL, "arm": STILL}, hangs={"arm": _axis(BASE_MM, 0.0, "base")})
    links = [(_axis(0.0, 0.0, "bar"), [_axis(0.0, 0.0, "base")]), (_axis(long_mm, 0.0, "bar"), [_axis(*_end(), "arm")])]
    return close_chain(links, room, free), room


@pytest.mark.parametrize("long_mm", [50.0, 75.0, 110.0])
def test_the_arm_turns_to_the_nearest_triangle(long_mm: float) -> None:
    """Sides 100, 60 and the bar: the arm's angle by the law of cosines, on the side on which it is drawn; no shift."""
    free = {"arm": "any angle"}
    closed, room = _closed(long_mm, free)
    x, y, _ = room.frames["arm"].point((*_end(), 0.0))
    inner = math.acos((BASE_MM**2 + ARM_MM**2 - long_mm**2) / (2 * BASE_MM * ARM_MM))

    assert closed
    assert (x, y) == pytest.approx((BASE_MM - ARM_MM * math.cos(inner), ARM_MM * math.sin(inner)), abs=1e-4)
    assert room.frames["arm"].point((BASE_MM, 0.0, 0.0)) == pytest.approx((BASE_MM, 0.0, 0.0), abs=1e-9)
    assert "closed chain" in free["arm"]


@pytest.mark.parametrize(("long_mm", "free"), [(30.0, {"arm": "any angle"}), (50.0, {})])
def test_what_cannot_close_stays_where_it_was(long_mm: float, free: dict[str, str]) -> None:
    """A bar of 30 mm reaches no arm of 60 over 100 mm; an arm that may not turn is not turned."""
    closed, room = _closed(long_mm, free)

    assert not closed
    assert np.array_equal(room.frames["arm"].matrix(), STILL.matrix())
