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


def _flat(off_mm: float) -> Manifold:
    """Return what cuts a flat ``off_mm`` beside the axis of a shaft."""
    return Manifold.cube((20.0, 20.0, 99.0), True).translate((off_mm + 10.0, 0.0, 0.0))


@pytest.mark.parametrize(
    ("body", "round_deg", "flats_n"),
    [
        (cylinder(6.0, 30.0, 96) - _flat(2.0), 264.0, 1),
        (cylinder(6.0, 30.0, 96) - _flat(2.5), 293.0, 1),
        (cylinder(6.0, 30.0, 96) - _flat(2.2) - _flat(2.2).rotate((0.0, 0.0, 180.0)), 188.0, 2),
        (PLATE + cylinder(6.0, 14.0, 96) - _flat(2.0).translate((0.0, 0.0, 52.0)), 264.0, 1),
        (cylinder(6.0, 30.0, 96) - Manifold.cube((2.0, 2.0, 99.0), True).translate((3.0, 0.0, 0.0)), 323.0, 1),
    ],
    ids=["flat", "shallow flat", "two flats", "flat over a plate", "keyway"],
)
def test_a_shaft_with_a_flat_is_a_peg(body: Manifold, round_deg: float, flats_n: int) -> None:
    """360 - 2 acos(f / r) degrees stay of a round with a flat at f: 263.6 for 2.0 of 3 mm, to a facet of 3.75."""
    peg = max(_pegs(body), key=lambda one: one.length_mm)

    assert peg.diameter_mm == pytest.approx(6.0, abs=1e-3)
    assert peg.coverage_deg == pytest.approx(round_deg, abs=4.0)
    assert peg.flats_n == flats_n


def test_the_round_end_of_a_lever_is_no_peg() -> None:
    """An eye of 12 mm goes 276 degrees round, and the arm goes on from there; a rounded bar goes half round."""
    eye = cylinder(12.0, 5.0, 96) + Manifold.cube((40.0, 8.0, 5.0)).translate((0.0, -4.0, 0.0))
    bar = Manifold.batch_hull([cylinder(12.0, 5.0, 96), cylinder(12.0, 5.0, 96).translate((30.0, 0.0, 0.0))])

    assert _pegs(eye) == _pegs(bar) == ()


def test_only_a_peg_with_a_free_end_can_go_into_a_bore() -> None:
    """A neck between two flanges, or two balls, has none; a foot at one end leaves the other; a barb is no flange."""
    neck = cylinder(8.0, 20.0, 64)
    flange = Manifold.cube((20.0, 20.0, 3.0), True)
    ball = Manifold.sphere(8.0, 64)
    barb = Manifold.cylinder(2.0, 4.5, 3.6, 64)

    def enters(body: Manifold) -> list[bool]:
        return [peg.enters for peg in _pegs(body) if abs(peg.diameter_mm - 8.0) < 1e-3]

    assert enters(neck + flange.translate((0, 0, -1)) + flange.translate((0, 0, 21))) == [False]
    assert enters(neck + ball.translate((0, 0, -6)) + ball.translate((0, 0, 26))) == [False]
    assert enters(neck + flange.translate((0, 0, -1))) == [True]
    assert enters(neck + flange.translate((0, 0, -1)) + barb.translate((0, 0, 20))) == [True]
