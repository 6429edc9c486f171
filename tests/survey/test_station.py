"""Inside measures of shells, against circles, cones and ellipses whose lengths are known."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest
from scipy.special import ellipe

from planner.mesh import Solid
from planner.survey import inside_at
from sample_parts.arm_group import arc_band, cuff
from sample_parts.dimensions import HERON
from tests.shapes import Manifold, cuboid, solid_of, tube


def c_shell(
    wide_mm: float, high_mm: float, open_deg: float, *, wall_mm: float = 3.0, mouth_deg: float = 0.0, top: float = 1.0
) -> Solid:
    """Return an open shell, square at its lips: an ellipse inside, of half axes wide and high, tapering to ``top``."""
    half = math.radians(360.0 - open_deg) / 2
    t = math.pi + math.radians(mouth_deg) + np.linspace(-half, half, 361)
    inner = np.column_stack([wide_mm * np.cos(t), high_mm * np.sin(t)])
    normal = np.column_stack([np.cos(t) / wide_mm, np.sin(t) / high_mm])
    outer = inner + wall_mm * normal / np.linalg.norm(normal, axis=1)[:, None]
    band = manifold3d.CrossSection([np.vstack([outer, inner[::-1]])])
    return solid_of(Manifold.extrude(band, 150.0, 0, 0.0, (top, top)).rotate((0, 0, 17)))


def round_mm(wide_mm: float, high_mm: float) -> float:
    """Return an ellipse's circumference: 4 a E(m), m = 1 - b²/a² (Abramowitz and Stegun 1964, 17.3)."""
    a, b = max(wide_mm, high_mm), min(wide_mm, high_mm)
    return float(4 * a * ellipe(1 - (b / a) ** 2))


@pytest.mark.parametrize("wall_mm", [1.5, 3.0, 6.0])
@pytest.mark.parametrize("open_deg", [10, 20, 40, 60, 90, 118, 150, 180])
def test_an_open_tube_is_as_long_around_as_its_circle(open_deg: float, wall_mm: float) -> None:
    """The mouth counts at the inner side, as the circle's own arc: 2 pi r within 0.2 %, whatever the wall."""
    found = inside_at(c_shell(31.0, 31.0, open_deg, wall_mm=wall_mm), 50.0, "around")

    assert found is not None
    assert found.mm == pytest.approx(2 * math.pi * 31.0, rel=2e-3)
    assert found.open_percent == pytest.approx(open_deg / 3.6, abs=0.5)


@pytest.mark.parametrize("mouth_deg", [0.0, 35.0, 90.0])
@pytest.mark.parametrize("open_deg", [10, 45, 90, 140])
def test_an_open_ellipse_is_as_long_around_as_the_whole_one(open_deg: float, mouth_deg: float) -> None:
    """Half axes of 38 and 27 mm, the mouth at either end or between."""
    found = inside_at(c_shell(38.0, 27.0, open_deg, mouth_deg=mouth_deg), 50.0, "around")

    assert found is not None
    assert found.mm == pytest.approx(round_mm(38.0, 27.0), rel=2e-3)


@pytest.mark.parametrize("station", [5.0, 50.0, 95.0])
def test_an_open_cone_is_measured_where_the_station_is(station: float) -> None:
    """From 34 mm radius to 0.8 of it over the length."""
    found = inside_at(c_shell(34.0, 34.0, 80.0, top=0.8), station, "around")

    assert found is not None
    assert found.mm == pytest.approx(2 * math.pi * 34.0 * (1 - 0.2 * station / 100), rel=2e-3)


def test_a_closed_tube_is_as_long_around_as_its_facets() -> None:
    """A ring of 96 facets of chord 2 r sin(pi / 96), nothing of it open."""
    found = inside_at(tube(70.0, 62.0, 120.0), 40.0, "around")

    assert found is not None
    assert found.mm == pytest.approx(96 * 62.0 * math.sin(math.pi / 96), rel=1e-6)
    assert found.open_percent == 0.0


@pytest.mark.parametrize("station", [1.0, 10.0, 20.0, 35.0, 50.0, 80.0, 99.0])
def test_the_cuff_of_the_heron_is_measured_through_its_slots_and_lips(station: float) -> None:
    """Round lips and strap slots in the section change neither measure: the inner circle narrows from 31 to 26.66 mm."""
    radius = HERON.cuff_inner_radius * (1 - (1 - HERON.cuff_taper) * station / 100)
    around, width = (inside_at(solid_of(cuff()), station, kind) for kind in ("around", "width"))

    assert around is not None
    assert width is not None
    assert around.mm == pytest.approx(2 * math.pi * radius, rel=2e-3)
    assert width.mm == pytest.approx(2 * radius, rel=2e-3)


@pytest.mark.parametrize("open_deg", [10, 25, 60, 100])
def test_a_width_is_not_counted_to_the_outer_side_of_the_mouth(open_deg: float) -> None:
    """An open tube is as wide inside as its circle: a narrow mouth once added the wall to it."""
    found = inside_at(c_shell(31.0, 31.0, open_deg), 50.0, "width")

    assert found is not None
    assert found.mm == pytest.approx(62.0, rel=2e-3)


def test_a_trough_is_as_wide_as_its_rims_are_apart() -> None:
    """A third of a circle, and an angular U of 60 by 25 mm: the width is the chord, nothing is continued."""
    arc = inside_at(c_shell(31.0, 31.0, 240.0), 50.0, "width")
    body = Manifold.cube((66, 28, 150)) - Manifold.cube((60, 28, 152)).translate((3, 3, -1))
    box = inside_at(solid_of(body), 50.0, "width")

    assert arc is not None
    assert box is not None
    assert arc.mm == pytest.approx(2 * 31.0 * math.sin(math.radians(60)), rel=2e-3)
    assert box.mm == pytest.approx(60.0, rel=2e-3)


def test_a_mouth_in_a_flat_side_is_closed_by_a_straight_line() -> None:
    """A box of 60 by 40 inside with corners of 8 mm and a mouth of 20 in one side: 2 (60 + 40) - (8 - 2 pi) 8 around."""
    room = manifold3d.CrossSection.square((44, 24), True).offset(8.0, manifold3d.JoinType.Round, circular_segments=128)
    band = room.offset(3.0, manifold3d.JoinType.Round, circular_segments=128) - room
    band -= manifold3d.CrossSection.square((20, 20), True).translate((0, -25))
    found = inside_at(solid_of(Manifold.extrude(band, 150.0)), 50.0, "around")

    assert found is not None
    assert found.mm == pytest.approx(200.0 - (8 - 2 * math.pi) * 8.0, rel=2e-3)


def test_a_block_has_no_inside() -> None:
    """A solid block gives no inside measure rather than a wrong one."""
    assert inside_at(cuboid(60, 20, 20), 50.0, "width") is None


def test_band_and_shell_agree() -> None:
    """The Heron's own band with round lips measures as a square-lipped one does."""
    band = solid_of(Manifold.extrude(arc_band(31.0, 34.2, 118.0, 240), 150.0))
    found, square = inside_at(band, 50.0, "around"), inside_at(c_shell(31.0, 31.0, 118.0, wall_mm=3.2), 50.0, "around")

    assert found is not None
    assert square is not None
    assert found.mm == pytest.approx(square.mm, rel=2e-3)


@pytest.mark.parametrize("long_mm", [20.0, 60.0, 75.0, 140.0])
@pytest.mark.parametrize("arc_deg", [180.0, 250.0, 300.0, 340.0, 360.0])
def test_a_short_cuff_is_measured_across_its_round_and_not_between_two_walls(long_mm: float, arc_deg: float) -> None:
    """Inside 70 mm wide, 2 pi 35 mm around, whether it is longer than its 76 mm or shorter; the axis is told then.

    Cut across its longest axis, a short cuff was two walls, 53 mm apart at a fifth of the way.
    """
    solid = solid_of(
        Manifold.revolve(manifold3d.CrossSection.square((3.0, long_mm)).translate((35.0, 0.0)), 180, arc_deg)
    )
    for station in (20.0, 50.0):
        around, width = (inside_at(solid, station, kind) for kind in ("around", "width"))
        assert around is not None
        assert width is not None
        assert around.mm == pytest.approx(2 * math.pi * 35.0, rel=1e-3)
        assert width.mm == pytest.approx(70.0, rel=1e-3)
        assert (around.along, width.along) == (("", "") if long_mm > 76.0 else ("z", "z"))
