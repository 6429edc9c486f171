"""Known walls: 51 solids of known least wall, and 16 that only run out to edges (closed forms in ``wall_solids``)."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.survey import Walls
from planner.survey.bores.bores import bores_of
from planner.survey.walls.walls import walls_of
from tests.shapes import Manifold, solid_of
from tests.survey.walls.wall_solids import KNOWN, RUN_OUTS, Known, block, oblique, on_corner, wedge_cut

LOADED_MM = 3 * 0.45
"""Three lines: what a wall that carries needs at 100 %."""


def _walls(known: Known) -> Walls:
    """Measure walls as a survey does."""
    solid = solid_of(known.body)
    return walls_of(solid, bores_of(solid)[0])


@pytest.mark.parametrize("known", KNOWN, ids=lambda known: known.name)
def test_the_least_wall_is_the_closed_form(known: Known) -> None:
    """Every wall, one side an inner edge or corner too, is measured within 2 % or 0.03 mm (geometry)."""
    least = _walls(known).least

    assert least is not None
    assert least.thickness_mm == pytest.approx(known.least_mm, rel=0.02, abs=0.03)


@pytest.mark.parametrize("known", RUN_OUTS, ids=lambda known: known.name)
def test_what_runs_out_is_no_wall(known: Known) -> None:
    """Knife edges, chamfers, coves, needles: no thin place comes of them, and what stands elsewhere is measured."""
    walls = _walls(known)

    assert walls.least is None or walls.least.thickness_mm >= 0.98 * min(known.least_mm, 2.5)
    assert all(place.thickness_mm > LOADED_MM for place in walls.places)


def test_a_sharp_edge_is_told_with_its_angle_and_length() -> None:
    """A wedge of 20 degrees, 30 mm wide, has one edge of that angle and length."""
    known = next(one for one in RUN_OUTS if one.name == "knife edge 20")
    edge = _walls(known).run_outs[0]

    assert edge.angle_deg == pytest.approx(20.0, abs=0.01)
    assert edge.length_mm == pytest.approx(30.0, abs=0.01)
    assert edge.at_mm == pytest.approx((40.0, 15.0, 0.0))


def test_a_groove_reaches_as_far_as_it_is_long() -> None:
    """A groove of 12 mm over 0.7: below 1 mm it is 12 mm long, and as wide as balls of 1 mm touch its edge.

    A ball of diameter t touches the floor at x and the edge at height h where t = (x2 + h2) / h (geometry).
    """
    known = next(one for one in KNOWN if one.name == "groove with ends")
    place = _walls(known).places[0]
    below = next(entry for entry in place.below if entry.thickness_mm > 0.88)
    half = np.sqrt(below.thickness_mm * 0.7 - 0.49)

    assert place.between == "an inner edge and the lower face"
    assert below.length_mm == pytest.approx(12.0, abs=0.6)
    assert below.breadth_mm == pytest.approx(2 * half, abs=0.5)


def test_a_corner_over_a_floor_is_small_and_a_small_share() -> None:
    """A pocket's corner 0.5 mm over the floor is thin over about a millimetre, and under a hundredth of the section."""
    place = _walls(replace(KNOWN[0], body=on_corner(0.5))).places[0]
    below = next(entry for entry in place.below if entry.thickness_mm > 0.75)

    assert below.length_mm < 1.35
    assert below.breadth_mm < 1.35
    assert below.share < 0.01


def test_a_thin_neck_takes_its_whole_section() -> None:
    """A bar of 10 x 10 notched from both sides to 0.8 mm has all of its section there, however short the neck."""
    cut = wedge_cut(8, 4.6, 14).translate((20, -2, 5.4))
    other = wedge_cut(8, 4.6, 14).rotate((180, 0, 0)).translate((20, 12, 4.6))
    narrow = block(40, 1.2, 10) - cut - other
    place = _walls(replace(KNOWN[0], body=narrow)).places[0]

    assert place.thickness_mm == pytest.approx(0.8, abs=0.01)
    assert max(entry.share for entry in place.below) > 0.9


@pytest.mark.parametrize("tilt", [0, 10, 20, 30, 40])
def test_matter_beside_an_oblique_bore_counts_to_its_mouth(tilt: int) -> None:
    """The web between a tilted bore's mouth and the side is what the drawing says, at every tilt (geometry)."""
    bore = bores_of(solid_of(oblique(tilt, 0.75)))[0][0]

    assert bore.edge_wall_mm == pytest.approx(0.75, abs=0.01)


def test_walls_turn_with_the_part_and_stay() -> None:
    """Turned anyhow, each of ten solids has the same least wall within 1 %."""
    for known in KNOWN[10:40:3]:
        turned = replace(known, body=known.body.rotate((31, 17, 53)))
        one, other = _walls(known).least, _walls(turned).least
        assert one is not None
        assert other is not None
        assert one.thickness_mm == pytest.approx(other.thickness_mm, rel=0.01, abs=0.005), known.name


def test_the_same_mesh_gives_the_same_walls() -> None:
    """Two runs agree to the last digit."""
    known = next(one for one in KNOWN if one.name == "grooves across each other")

    assert _walls(known).places == _walls(known).places


def test_a_plain_block_has_one_place_and_no_run_out() -> None:
    """A block of 30 x 20 x 6: its thinnest place lies between its upper and lower face."""
    walls = _walls(replace(KNOWN[0], body=Manifold.cube((30, 20, 6))))

    assert len(walls.places) == 1
    assert sorted(walls.places[0].between.split(" and ")) == ["the lower face", "the upper face"]
    assert walls.run_outs == ()
