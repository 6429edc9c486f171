"""The weakest cut as lines: where the beam pass found it, as large as it says."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from planner.strength.beam.beam_pass import weakest
from planner.strength.field.weakest_section import weakest_section
from tests.strength.field.test_beam_field import BAR, PUSHED, SOLID


def test_the_outline_is_the_cut() -> None:
    """Its corners lie in the cut's plane, on the bar's sides, and go round its area of 80 mm²."""
    weak = weakest(BAR, (PUSHED,), SOLID)
    assert weak is not None
    (ring,) = weakest_section(weak, BAR)

    assert ring[:, 0] == pytest.approx(weak.cut_at_mm[0])
    assert shapely.Polygon(ring[:, 1:]).area == pytest.approx(weak.area_mm2, rel=1e-3)
    assert np.ptp(ring, axis=0)[1:] == pytest.approx([10.0, 8.0])
