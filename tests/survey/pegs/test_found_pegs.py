"""Pegs of known diameter and length are found wherever they stand; rims, prisms and bores are none."""

from __future__ import annotations

import pytest
from manifold3d import Manifold

from planner.survey.bores.facets import facets_of
from planner.survey.pegs.found_pegs import pegs_of
from planner.survey.pegs.peg import Peg
from tests.shapes import cylinder, solid_of

PLATE = Manifold.cube((60.0, 20.0, 5.0), True)


def _pegs(body: Manifold) -> tuple[Peg, ...]:
    solid = solid_of(body)
    return pegs_of(solid, facets_of(solid))


def test_pegs_are_measured_where_they_stand() -> None:
    """Two pegs on a plate, one of them turned: diameters, lengths, axes and places as drawn."""
    lying = cylinder(6.0, 12.0, 48).rotate((0.0, 90.0, 0.0)).translate((30.0, 0.0, 0.0))
    body = PLATE.scale((1.0, 1.0, 2.0)) + cylinder(8.0, 10.0, 64).translate((-15.0, 3.0, 5.0)) + lying
    upright, other = _pegs(body)

    assert [(peg.id, round(peg.diameter_mm, 3), round(peg.length_mm, 3)) for peg in (upright, other)] == [
        ("p1", 8.0, 10.0),
        ("p2", 6.0, 12.0),
    ]
    assert upright.axis == pytest.approx((0.0, 0.0, 1.0), abs=1e-6)
    assert other.axis == pytest.approx((1.0, 0.0, 0.0), abs=1e-6)
    assert upright.centre_mm == pytest.approx((-15.0, 3.0, 10.0), abs=1e-3)
    assert other.centre_mm == pytest.approx((36.0, 0.0, 0.0), abs=1e-3)


def test_a_hub_and_a_sleeve_are_pegs_too() -> None:
    """What is round outside may go into a bore, whether it is hollow or not."""
    (hub,) = _pegs(PLATE + cylinder(12.0, 9.0, 64) - cylinder(4.0, 40.0, 48).translate((0.0, 0.0, -20.0)))
    (sleeve,) = _pegs(cylinder(6.0, 20.0, 48) - cylinder(4.0, 30.0, 48).translate((0.0, 0.0, -5.0)))

    assert (hub.diameter_mm, sleeve.diameter_mm) == pytest.approx((12.0, 6.0), abs=1e-3)


@pytest.mark.parametrize(
    "body",
    [
        PLATE - cylinder(8.0, 20.0, 64).translate((0.0, 0.0, -10.0)),
        PLATE + cylinder(8.0, 10.0, 6),
        cylinder(40.0, 3.0, 96),
        Manifold.sphere(10.0, 64),
        Manifold.cylinder(12.0, 6.0, 3.0, 64),
    ],
    ids=["bore", "hexagon", "disc", "ball", "cone"],
)
def test_what_is_no_peg_is_not_taken_for_one(body: Manifold) -> None:
    """A bore, a hexagonal prism, the rim of a disc, a ball and a cone."""
    assert _pegs(body) == ()
