"""Necks narrower than cuts are apart are cut."""

from __future__ import annotations

import numpy as np
import pytest
from manifold3d import CrossSection, Manifold

from planner.strength.beam.beam_pass import weakest
from planner.strength.beam.necks import areas_mm2, necks_of
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import cylinder, solid_of, tube
from tests.strength.beam.test_beam_pass import SOLID

SHARES = (0.01, 0.25, 0.5, 0.75, 0.99)


def test_areas_of_sections_are_those_of_plane_geometry() -> None:
    """A tube of 20 and 10 mm, by polygons; above it there is nothing."""
    areas = areas_mm2(tube(20.0, 10.0, 30.0).corners_mm, np.array([10.0, 20.0, 40.0]))
    ngon_mm2 = 96 / 2 * (10.0**2 - 5.0**2) * np.sin(2 * np.pi / 96)

    assert areas == pytest.approx([ngon_mm2, ngon_mm2, 0.0])


def test_a_notch_and_a_bore_between_cuts_are_cut_where_they_are_narrowest() -> None:
    """Across 100 mm, cut every 25: a notch of 3 mm at 40, a bore of 6 at 60; a plain bar is cut no more often."""
    bar = Manifold.cube((100, 20, 5))
    notched = bar - Manifold.cube((3, 10, 7)).translate((39, 14, -1)) - cylinder(6, 7, 48).translate((60, 8, -1))
    way = ((0.0, 10.0, 2.5), (100.0, 10.0, 2.5))

    assert [100.0 * one for one in necks_of(solid_of(notched), way, SHARES)] == pytest.approx([40.5, 60.0], abs=2.1)
    assert necks_of(solid_of(bar), way, SHARES) == ()


def test_a_steep_notch_is_judged_at_its_root() -> None:
    """A V of 4 mm in a bar of 8 by 10: 10 N bend the 6 mm left by 6 M / (b h²) = 8.33 MPa (Navier), the root by 5.25."""
    vee = Manifold.extrude(CrossSection([[(20, 6), (22, 12), (18, 12)]]), 20).translate((0, 0, -5))
    bar = solid_of(Manifold.cube((70, 10, 8)).translate((-10, 0, 0)) - vee, "vee")
    push = PartLoad(at_mm=(60.0, 10.0, 4.0), force_n=(0.0, -10.0, 0.0))
    case = known_case([push], [Support(at_mm=(-10.0, 5.0, 4.0))], "10 N")
    found = weakest(bar, (case,), SOLID)

    assert found is not None
    assert found.stress_mpa == pytest.approx(10.0 * 40.0 * 6.0 / (8.0 * 6.0**2), rel=0.05)
