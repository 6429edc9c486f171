"""What a part is made of, from material, settings and pose."""

from __future__ import annotations

import pytest

from planner.job import Material, Settings
from planner.strength.beam.material_as_printed import stuff_of


def test_the_low_strengths_and_the_printed_skin_count(petg: Material, standard: Settings) -> None:
    """Three lines of 0.45 mm at the sides, 0.8 mm of solid layers, a fifth of infill, layers stacked from the bed up."""
    found = stuff_of(petg, standard, (0.0, -1.0, 0.0))

    assert found.normal == (0.0, 1.0, 0.0)
    assert (found.side_mm, found.level_mm, found.infill_share) == pytest.approx((1.35, 0.8, 0.2))
    assert found.strengths.along_mpa == petg.strength_along_mpa.low
