"""The shear along the edge of a twisted section: where it is most, and where there is none."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from planner.strength.beam.twist.edge_shear import edge_shear


def test_a_bar_is_sheared_most_at_the_middle_of_its_long_sides_and_not_at_corners() -> None:
    """2 to 1 (Timoshenko and Goodier, from memory): T / (0.246 b h²) there, 0.795 of that at the short sides' middle."""
    found = edge_shear(shapely.box(-6, -3, 6, 3))
    at, size = found.places_mm, np.linalg.norm(found.shear_mpa, axis=1)
    long, short = (np.linalg.norm(at - place, axis=1).argmin() for place in ((0, 3), (6, 0)))

    assert size[long] == pytest.approx(1 / (0.246 * 12 * 36), rel=0.01)
    assert size[short] == pytest.approx(0.795 * size[long], rel=0.01)
    assert size[np.linalg.norm(at - (6, 3), axis=1).argmin()] < 0.25 * size[long]


def test_shear_turns_with_the_moment_and_makes_it_up() -> None:
    """From x to y; of a triangle with equal sides a, T = 0.05 a³ of the shear (Roark, from memory): 20 T / a³."""
    triangle = shapely.Polygon([(0, 0), (0.5, 3**0.5 / 2), (1, 0)])
    found = edge_shear(triangle)
    arms, shear = found.places_mm - triangle.centroid.coords[0], found.shear_mpa
    turns = arms[:, 0] * shear[:, 1] - arms[:, 1] * shear[:, 0]

    assert (turns > 0).all()
    assert np.linalg.norm(found.shear_mpa, axis=1).max() == pytest.approx(20.0, rel=0.01)
    assert found.constant_mm4 == pytest.approx(3**0.5 / 80, rel=0.01)


def test_it_does_not_hang_on_which_way_round_or_how_it_lies() -> None:
    """A bored bar, turned and with its corners the other way round: the same constant and shear."""
    bar = shapely.box(0, 0, 20, 8).difference(shapely.Point(14, 4).buffer(2))
    turned = shapely.affinity.rotate(bar, 33.0).reverse()
    one, other = edge_shear(bar), edge_shear(turned)

    assert other.constant_mm4 == pytest.approx(one.constant_mm4, rel=0.005)
    assert np.linalg.norm(other.shear_mpa, axis=1).max() == pytest.approx(
        np.linalg.norm(one.shear_mpa, axis=1).max(), rel=0.01
    )
