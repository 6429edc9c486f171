"""Ways through thin places: a floor has one, a tray of one thickness has three, a ball has many."""

from __future__ import annotations

import manifold3d
import pytest

from planner.mesh import Solid
from planner.survey import survey
from tests.shapes import cylinder, solid_of


def _ways(solid: Solid) -> set[tuple[float, ...]]:
    """Return the ways through the thinnest place, to a tenth."""
    return {tuple(round(abs(x), 1) for x in way) for _, way in survey(solid).walls.places[0].ways}


def test_a_plate_is_thin_one_way() -> None:
    """60 by 40 by 0.8 mm: through its height, and 0.8 mm that way."""
    plate = survey(solid_of(manifold3d.Manifold.cube((60, 40, 0.8)))).walls.places[0]

    assert plate.ways[0][1] == pytest.approx((0.0, 0.0, 1.0), abs=1e-6)
    assert plate.ways[0][0] == pytest.approx(0.8, abs=1e-3)


def test_a_tray_of_one_thickness_is_thin_three_ways() -> None:
    """Floor, long walls, short walls."""
    inner = manifold3d.Manifold.cube((58.4, 38.4, 20)).translate((0.8, 0.8, 0.8))
    tray = solid_of(manifold3d.Manifold.cube((60, 40, 12)) - inner)

    assert {(0.0, 0.0, 1.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)} <= _ways(tray)


def test_a_half_shell_is_thin_all_round() -> None:
    """Half of a tube of 30 mm, 0.8 mm thick: ways 15 degrees apart or more, none of them along it."""
    pipe = cylinder(30.0, 40.0, 96) - cylinder(28.4, 50.0, 96).translate((0, 0, -5))
    half = pipe ^ manifold3d.Manifold.cube((40, 40, 40)).translate((-20, 0, 0))
    ways = _ways(solid_of(half))

    assert len(ways) >= 6
    assert all(way[2] < 0.3 for way in ways)
