"""Recut: plugs, hexagons, curved channels, slots and bosses measure what was asked, and nothing else moves."""

from __future__ import annotations

import math

import pytest

from planner.finding import Vec3
from planner.mesh import Solid
from planner.rebore.recut import boss, channel_cut, drawn_mm, hexagon_cut, plug, round_cut, shielded
from planner.survey import survey
from planner.survey.bores.bores import bores_of
from sample_parts.solids import bent_tube
from tests.shapes import Manifold, bored_plate, cylinder, ngon_area, solid_of, tube

TURNS = ((0.0, 0.0, 0.0), (17.0, 33.0, 51.0))


def _body(solid: Solid) -> Manifold:
    """Return a solid's manifold."""
    assert solid.manifold is not None
    return solid.manifold


@pytest.mark.parametrize("turn", TURNS)
def test_a_plug_fills_a_square_bore_exactly(turn: Vec3) -> None:
    """Plate with one bore, plugged: the plate's own volume x y z."""
    solid = solid_of(_body(bored_plate(30, 20, 6, [(15, 10, 8, 48)])).rotate(turn))
    filler = plug(_body(solid), bores_of(solid)[0][0], 1.0)

    assert filler is not None
    assert (_body(solid) + filler).volume() == pytest.approx(30 * 20 * 6, rel=1e-4)


def test_a_plug_follows_an_oblique_mouth() -> None:
    """A bore that leaves through a slope at 30 degrees is filled flush with it: volume and box of the wedge return."""
    wedge = (
        Manifold.cube((30, 20, 20)) - Manifold.cube((60, 60, 60)).rotate((0, 30, 0)).translate((0, -20, 16))
    ).split_by_plane((0, 0, -1), -19)[0]
    body = solid_of(wedge - cylinder(6, 60, 64).translate((15, 10, -20)))
    filler = plug(_body(body), bores_of(body)[0][0], 1.0)

    assert filler is not None
    assert (_body(body) + filler).volume() == pytest.approx(wedge.volume(), rel=2e-4)


def test_a_bore_that_opens_sideways_gets_no_plug() -> None:
    """A groove that crosses the bore would be closed by a plug: none is made."""
    body = Manifold.cube((40, 20, 12)) - cylinder(6, 60, 48).rotate((0, 90, 0)).translate((-10, 10, 6))
    grooved = solid_of(body - Manifold.cube((12, 20, 5)).translate((14, 0, 7.5)))
    bore = max(bores_of(grooved)[0] + bores_of(grooved)[1], key=lambda b: b.depth_mm)

    assert plug(_body(grooved), bore, 1.0) is None


@pytest.mark.parametrize("turn", TURNS)
def test_a_nut_pocket_keeps_its_corners_directions(turn: Vec3) -> None:
    """Widened from 6 to 7 mm across flats, the pocket loses the two hexagons' difference and its flats stay parallel."""
    pocket = cylinder(drawn_mm(6.0, 6), 9, 6).rotate((0, 0, 11)).translate((15, 10, 5))
    solid = solid_of((Manifold.cube((30, 20, 8)) - pocket).rotate(turn))
    found = bores_of(solid)[1][0]
    made = hexagon_cut(_body(solid), found, drawn_mm(7.0, 6), 1.0)
    again = bores_of(solid_of(made))[1][0]

    assert again.diameter_mm == pytest.approx(7.0, abs=0.01)
    assert again.facets_n == 6
    lost = (ngon_area(drawn_mm(7.0, 6), 6) - ngon_area(drawn_mm(6.0, 6), 6)) * 3.0
    assert _body(solid).volume() - made.volume() == pytest.approx(lost, rel=0.01)


def test_a_curved_channel_is_widened_along_its_line() -> None:
    """From 2 to 3 mm inside: the survey finds 3 mm, and the volume lost is the ring's area times its length."""
    body = solid_of(Manifold.cube((60, 10, 60), True).translate((5, 0, 5)) - bent_tube(1.0, 12.0, 90.0, 48, 24))
    (channel,) = survey(body).channels
    made = solid_of(channel_cut(_body(body), channel, drawn_mm(3.0), 1.0))
    (again,) = survey(made).channels

    assert again.diameter_mm == pytest.approx(3.0, abs=0.03)
    ring = ngon_area(drawn_mm(3.0), 64) - ngon_area(2.0, 48)
    assert ring * 12 * math.pi / 2 < body.volume_mm3 - made.volume_mm3 < ring * (12 * math.pi / 2 + 2 * 3.0)


def test_a_boss_leaves_the_wall_asked_for() -> None:
    """A bore 1 mm from an edge gets a ring 2 mm thick all round, at the bore's own depth."""
    solid = bored_plate(30, 20, 6, [(4, 10, 6, 64)])
    bore = bores_of(solid)[0][0]
    ring = boss(_body(solid), bore, 6.0, drawn_mm(10.0), 1.0)

    assert ring is not None
    again = bores_of(solid_of(_body(solid) + ring))[0][0]
    assert bore.edge_wall_mm == pytest.approx(1.0, abs=0.01)
    assert again.edge_wall_mm == pytest.approx(2.0, abs=0.02)


def test_a_bore_cut_anew_measures_its_aim() -> None:
    """Inscribed diameter of the cut is the one asked for (d cos(pi/n), geometry)."""
    solid = bored_plate(30, 20, 6, [(15, 10, 4, 24)])
    made = solid_of(round_cut(_body(solid), bores_of(solid)[0][0], drawn_mm(5.2), 1.0))

    assert bores_of(made)[0][0].diameter_mm == pytest.approx(5.2, abs=1e-3)


def test_a_wider_cut_leaves_no_flap_at_a_curved_mouth() -> None:
    """Widened from 4 to 6 mm, a bore through a ball beside its middle is what a 6 mm bore drawn there would be."""
    whole = Manifold.sphere(12, 128)
    cut = [cylinder(d, 60, 64).translate((6, 2, -30)) for d in (4.0, 6.0)]
    solid = solid_of(whole - cut[0])
    made = round_cut(_body(solid), bores_of(solid)[0][0], 6.0, 1.0)

    assert made.volume() == pytest.approx((whole - cut[1]).volume(), abs=1e-3)
    assert len(made.decompose()) == 1


def test_a_wider_cut_in_a_tube_leaves_the_far_wall_alone() -> None:
    """One bore of two in line through a tube is widened: the volume lost is half of what both would lose."""
    whole = _body(tube(30, 24, 40))
    lying = [cylinder(d, 60, 64).translate((0, 0, -30)).rotate((90, 0, 0)).translate((0, 0, 20)) for d in (4.0, 6.0)]
    solid = solid_of(whole - lying[0])
    bore = next(b for b in bores_of(solid)[0] if b.drawn_diameter_mm < 5 and b.centre_mm[1] > 0)
    lost = solid.volume_mm3 - round_cut(_body(solid), bore, 6.0, 1.0).volume()

    assert lost == pytest.approx((solid.volume_mm3 - (whole - lying[1]).volume()) / 2, rel=0.01)


def test_a_plug_leaves_no_step_beside_its_bore() -> None:
    """A counterbored hole in a block turned askew, plugged and cut narrower: its web is the block's, not a fleck's."""
    body = Manifold.cube((40, 30, 10)) - cylinder(6, 40, 48).translate((15, 15, -5))
    body -= cylinder(10, 20, 64).translate((15, 15, 6))
    solid = solid_of(body.rotate((17.0, 33.0, 51.0)))
    bore = min(bores_of(solid)[0], key=lambda b: b.drawn_diameter_mm)
    filler = plug(_body(solid), bore, 1.0)

    assert filler is not None
    made = solid_of(round_cut(_body(solid) + filler, bore, 5.0, 1.0))
    again = min(bores_of(made)[0], key=lambda b: b.drawn_diameter_mm)
    assert again.edge_wall_mm is not None
    assert again.edge_wall_mm > 5.0


def test_a_hub_in_a_recess_shields_its_bore() -> None:
    """A bore through a hub lies within the recess round it, but a plug for it closes nothing of the recess."""
    body = cylinder(30, 12, 96) - cylinder(24, 6, 96).translate((0, 0, 6)) + cylinder(10, 12, 64)
    solid = solid_of(body - cylinder(5, 40, 48).translate((0, 0, -5)))
    hub, recess = sorted(bores_of(solid)[0], key=lambda b: b.drawn_diameter_mm)
    crossed = solid_of(
        _body(solid) - cylinder(5, 60, 48).translate((0, 0, -30)).rotate((90, 0, 0)).translate((0, 0, 9))
    )

    assert shielded(_body(solid), hub, recess, 1.0)
    assert not shielded(_body(crossed), hub, recess, 1.0)
