"""Things that are bought: what sits in a bore, and which cords move something."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.job import Cord, Hardware

SCREW = Hardware(name="screw", kind="machine-screw", diameter_mm=4.0, joins=("a",))
CORD = Cord(name="pull", part="a", diameter_mm=1.0)


def test_a_bearing_sits_by_its_outside_and_a_screw_by_its_shank() -> None:
    """A bearing of 4 mm bore and 13 mm outside needs a seat of 13 mm; without its outside the shank counts."""
    bearing = replace(SCREW, kind="bearing", size_mm=13.0)

    assert [each.seated_mm for each in (SCREW, bearing, replace(bearing, size_mm=None))] == [4.0, 13.0, 4.0]


@pytest.mark.parametrize(
    ("stated", "pulls"),
    [
        ({}, False),
        ({"drives": "hinge"}, True),
        ({"drives": "hinge", "kind": "elastic"}, False),
    ],
)
def test_a_cord_pulls_where_it_is_said_to_move_something(stated: dict[str, str], pulls: bool) -> None:
    """A cord that drives a joint pulls; a return elastic does not, nor does a cord of which nothing is said."""
    assert replace(CORD, **stated).pulls is pulls  # type: ignore[arg-type]
