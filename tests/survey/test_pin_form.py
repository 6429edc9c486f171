"""Pins by form: shafts of known thickness with heads, steps and grooves; and what is no pin."""

from __future__ import annotations

import numpy as np
import pytest
from manifold3d import Manifold

from planner.survey import hull_points
from planner.survey.pin_form import shafts_mm
from tests.shapes import cylinder

GROOVED = cylinder(4.0, 26.0, 64) - (cylinder(6.0, 1.0, 64) - cylinder(3.0, 1.0, 64)).translate((0.0, 0.0, 22.0))
PINS: dict[str, tuple[Manifold, tuple[float, ...]]] = {
    "bare": (cylinder(6.0, 30.0, 64), (6.0,)),
    "with a round head": (cylinder(5.0, 28.0, 64) + cylinder(9.0, 3.0, 64), (5.0,)),
    "with a hexagon's head": (cylinder(4.0, 20.0, 64) + cylinder(8.0, 3.0, 6), (4.0,)),
    "with a countersunk head": (cylinder(4.0, 24.0, 64) + Manifold.cylinder(2.2, 4.2, 2.0, 64), (4.0,)),
    "with a groove for a clip": (GROOVED + cylinder(7.0, 2.0, 64), (4.0,)),
    "with a cross bore": (
        cylinder(5.0, 30.0, 64)
        - cylinder(2.0, 9.0, 32).translate((0.0, 0.0, -4.5)).rotate((90, 0, 0)).translate((0, 0, 25)),
        (5.0,),
    ),
    "with a head to one side": (
        cylinder(6.0, 40.0, 64) + Manifold.cube((12.0, 8.0, 4.0)).translate((-3, -4, 0)),
        (6.0,),
    ),
    "with a flat to print on": (
        (cylinder(6.0, 42.0, 64) + cylinder(11.0, 3.0, 64)).trim_by_plane((1.0, 0.0, 0.0), -2.4),
        (6.0,),
    ),
    "stepped": (cylinder(6.0, 20.0, 64) + cylinder(3.0, 32.0, 64), (6.0, 3.0)),
    "thick in the middle": (cylinder(3.0, 40.0, 64) + cylinder(5.0, 24.0, 64).translate((0, 0, 8)), (5.0, 3.0)),
}
OTHERS: dict[str, Manifold] = {
    "square bar": Manifold.cube((6.0, 6.0, 30.0), True),
    "tube": cylinder(6.0, 30.0, 64) - cylinder(4.0, 40.0, 64).translate((0, 0, -5)),
    "bush with a flange": cylinder(8.0, 20.0, 64)
    + cylinder(14.0, 2.0, 64)
    - cylinder(5.0, 50.0, 64).translate((0, 0, -9)),
    "cone": Manifold.cylinder(30.0, 6.0, 2.0, 64),
    "spool": cylinder(10.0, 30.0, 64) - (cylinder(12.0, 24.0, 64) - cylinder(5.0, 24.0, 64)).translate((0, 0, 3)),
    "wheel on a stub": cylinder(40.0, 5.0, 64) + cylinder(6.0, 20.0, 64),
    "disc": cylinder(20.0, 6.0, 64),
}


def _shafts_mm(body: Manifold) -> tuple[float, ...]:
    """Return what is found of a body that lies askew."""
    corners = body.rotate((20.0, 35.0, 10.0)).to_mesh().vert_properties[:, :3]
    return shafts_mm(hull_points(np.asarray(corners, float)), body.volume())


@pytest.mark.parametrize("name", PINS)
def test_the_shaft_of_a_pin_is_found(name: str) -> None:
    """Each step that is longer than it is thick, longest first; a head, a groove or a cross bore does not hide it."""
    body, shafts_mm = PINS[name]

    assert _shafts_mm(body) == pytest.approx(shafts_mm, rel=0.02)


@pytest.mark.parametrize("name", OTHERS)
def test_what_only_looks_like_one_is_no_pin(name: str) -> None:
    """Neither square, hollow, tapered nor waisted, and no wheel on an axle."""
    assert _shafts_mm(OTHERS[name]) == ()
