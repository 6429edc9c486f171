"""The side on the skin is the hollow one, or the one that looks where the job says."""

from __future__ import annotations

import math

import pytest
from manifold3d import Manifold

from planner.pattern.skin_patch import is_rival, skin_patch
from tests.pattern.shells import bowl, half_shell, plate
from tests.shapes import cuboid, cylinder, solid_of


def test_the_inside_of_a_shell_is_found_with_its_cylinder() -> None:
    """Rounded lips do not take part, and no other piece might be meant."""
    found = skin_patch(half_shell(31, 3.2, 100, lips=True), None)

    assert found is not None
    assert found.fit is not None
    assert found.fit.radius_mm == pytest.approx(31, abs=0.02)
    assert found.fit.sense == -1
    assert found.patch.area_mm2 == pytest.approx(math.pi * 31 * 100, rel=2e-3)
    assert not is_rival(found)


def test_a_bowl_is_hollow_and_no_cylinder() -> None:
    """Area of a cap: 2 π R² (1 - cos α) (Archimedes)."""
    found = skin_patch(bowl(40, 3, 40), None)

    assert found is not None
    assert found.fit is None
    assert found.patch.area_mm2 == pytest.approx(2 * math.pi * 1600 * (1 - math.cos(math.radians(40))), rel=5e-3)


def test_a_plate_needs_to_be_told() -> None:
    """No side of a plate is hollow; stated, the side is the one that looks there."""
    solid = plate(80, 40, 4)
    found = skin_patch(solid, (0.0, 0.0, -1.0))

    assert skin_patch(solid, None) is None
    assert found is not None
    assert found.patch.normals[:, 2].max() == pytest.approx(-1.0)


def test_two_equal_sides_are_rivals() -> None:
    """A direction between two faces of a cuboid means neither more than the other."""
    found = skin_patch(cuboid(30, 30, 30), (1.0, 1.0, 0.0))

    assert found is not None
    assert is_rival(found)


def test_a_tab_that_stands_into_the_shell_does_not_bend_its_cylinder() -> None:
    """A hinge's tab of 6 mm on each rim, 1 mm nearer to the axis than the inside of radius 36: the rest is the cylinder."""
    shell = cylinder(80, 110, 96) - cylinder(72, 130, 96).translate((0, 0, -10))
    shell ^= Manifold.cube((60, 120, 130)).translate((0, -60, -10))
    for side in (-1, 1):
        shell += Manifold.cube((18, 6, 30), True).translate((9, side * 38, 110))
    found = skin_patch(solid_of(shell), None)

    assert found is not None
    assert found.fit is not None
    assert found.fit.radius_mm == pytest.approx(36, abs=0.05)
