"""How sharply a limb bends, from its mesh: circles are found, and what is no curve is none."""

from __future__ import annotations

import manifold3d
import numpy as np
import pytest

from planner.strength.beam.curved.curved_way import Curve, Limbs
from planner.strength.beam.cut_shapes import cuts_along
from tests.shapes import Manifold, cylinder, solid_of


def _curve(body: manifold3d.Manifold, at_mm: tuple[float, float, float]) -> Curve | None:
    """Return the curve of a body where it is cut across y."""
    solid, at = solid_of(body), np.array(at_mm)
    ((cut, shape, _),) = cuts_along(solid, at, at + np.array([0.0, 1.0, 0.0]), (0.0,))
    return Limbs(solid=solid, start_mm=at, axes=cut.axes).curve(cut, shape)


def _c(radius_mm: float, flat_n: int = 96) -> manifold3d.Manifold:
    """Return half a ring, 8 mm deep, about the origin."""
    ring = cylinder(2 * radius_mm + 8.0, 6.0, flat_n) - cylinder(2 * radius_mm - 8.0, 6.0, flat_n)
    return ring - Manifold.cube((999.0, 1999.0, 99.0)).translate((-999.0, -999.0, -9.0))


@pytest.mark.parametrize("radius_mm", [6.0, 8.0, 16.0, 40.0, 120.0])
@pytest.mark.parametrize("y_mm", [0.0, 0.7])
def test_the_radius_of_an_arc_is_found(radius_mm: float, y_mm: float) -> None:
    """From its own mesh, also a little off its crown: within 5 %."""
    found = _curve(_c(radius_mm), (radius_mm, y_mm, 3.0))

    assert found is not None
    middle = np.array([[0.0, 0.0]])
    assert found.radius_mm(middle)[0] == pytest.approx(np.hypot(radius_mm, y_mm), rel=0.05)


def test_what_does_not_bend_both_sides_alike_is_no_curve() -> None:
    """A bar, a taper, a boss, a round notch, an L near its sharp corner, and between two corners: as straight as ever."""
    bar = Manifold.cube((8.0, 80.0, 6.0)).translate((0.0, -40.0, 0.0))
    boss = bar + cylinder(12.0, 6.0, 64).translate((8.0, 0.0, 0.0))
    notch = bar - cylinder(8.0, 6.0, 64).translate((8.0, 0.0, 0.0))
    taper = manifold3d.Manifold.extrude(manifold3d.CrossSection([[(0, -40), (12, -40), (6, 40), (3, 40)]]), 6.0)
    elbow = bar + Manifold.cube((40.0, 8.0, 6.0)).translate((0.0, 32.0, 0.0))

    assert _curve(bar, (4.0, 0.0, 3.0)) is None
    assert _curve(taper, (5.0, 1.0, 3.0)) is None
    assert _curve(boss, (4.0, 0.3, 3.0)) is None
    assert _curve(notch, (2.0, 0.3, 3.0)) is None
    for y in (20.0, 28.0, 31.5, 31.99, 32.5, 36.0):
        assert _curve(elbow, (4.0, y, 3.0)) is None
    assert _curve(elbow + Manifold.cube((40.0, 8.0, 6.0)).translate((0.0, 18.0, 0.0)), (4.0, 29.0, 3.0)) is None


def test_an_inner_side_that_comes_to_a_point_is_bounded() -> None:
    """A half disc with a bore of next to nothing, R / h of 0.51: an inner radius of a tenth of the depth at least."""
    found = _curve(_c(4.08), (4.0, 0.0, 3.0))

    assert found is None or found.radius_mm(np.array([[0.0, 0.0], [-3.92, 0.0], [3.92, 0.0]])).min() >= 0.79


def test_a_cut_through_two_legs_is_no_one_limb() -> None:
    """A whole ring cut in two places: its legs are told as legs."""
    ring = cylinder(40.0, 6.0, 96) - cylinder(24.0, 6.0, 96)

    assert _curve(ring, (16.0, 0.0, 3.0)) is None
