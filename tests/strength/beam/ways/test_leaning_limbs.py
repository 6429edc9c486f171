"""A limb that leans against its way is cut square to itself, too."""

from __future__ import annotations

import math

import pytest

from planner.strength.beam.beam_pass import KNOTS, weakest
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import Manifold, cylinder, solid_of
from tests.strength.beam.test_beam_pass import SOLID


def test_a_quarter_of_a_ring_takes_what_winkler_says_near_its_root() -> None:
    """R / h = 30 / 8, 20 N square to its root: Winkler's M (rn - ri) / (A e ri) inside (Timoshenko), within 15 %.

    The first whole section lies 2 mm from the clamp, where the arm is 27 mm. Across its chord alone slanted cuts had a
    quarter less, and a corner at the root half as much more.
    """
    ring = cylinder(68.0, 8.0, 96) - cylinder(52.0, 8.0, 96)
    quarter = solid_of(ring ^ Manifold.cube((40.0, 40.0, 20.0)).translate((0.0, 0.0, -1.0)))
    low = quarter.bounds_mm[0]
    root, tip = ((float(low[0] + x), float(low[1] + y), float(low[2] + 4.0)) for x, y in ((30.0, 1.0), (1.0, 30.0)))
    case = known_case([PartLoad(at_mm=tip, force_n=(20.0, 0.0, 0.0), spread_mm=())], [Support(at_mm=root)], "20 N")
    found = weakest(quarter, (case,), SOLID)
    neutral = 8.0 / math.log(34.0 / 26.0)
    bent = 20.0 * 27.0 * (neutral - 26.0) / (64.0 * (30.0 - neutral) * 26.0)

    assert found is not None
    assert found.share_percent[KNOTS.index(1.0)] == pytest.approx(100.0 * bent / 50.0, rel=0.15)
