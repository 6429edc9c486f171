"""A notch counts as much as the section carries there."""

from __future__ import annotations

import pytest

from planner.strength.beam.beam_pass import weakest
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import Manifold, cylinder, solid_of
from tests.strength.beam.test_beam_pass import SOLID


def test_a_bore_far_from_the_worst_cut_raises_nothing() -> None:
    """A cantilever bent at its root, bored a sixth of its length from the load: 3 times a seventh is under once."""
    bar = solid_of(Manifold.cube((90, 20, 8)) - cylinder(4, 20, 96).translate((80, 10, -5)), "far")
    case = known_case(
        [PartLoad(at_mm=(90.0, 10.0, 4.0), force_n=(0.0, 0.0, -9.0))], [Support(at_mm=(0.0, 10.0, 4.0))], "9 N"
    )
    found = weakest(bar, (case,), SOLID)

    assert found is not None
    assert found.notch_ratio == pytest.approx(1.0)
