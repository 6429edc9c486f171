"""Which openings lie, and which fill with support, on solids of known openings."""

from __future__ import annotations

import pytest

from planner.finding import Vec3
from planner.pose.filled_openings import filled_n, lying_bores_mm
from planner.survey import survey
from tests.shapes import Manifold, cylinder, solid_of

DOWN: tuple[Vec3, Vec3] = ((0.0, 0.0, -1.0), (1.0, 0.0, 0.0))


@pytest.mark.parametrize(("diameter", "filled"), [(6.0, 0), (20.0, 1)])
def test_a_bore_lies_on_its_side_and_fills_where_it_is_wide(diameter: float, filled: int) -> None:
    """A block of 40 with one bore along z: it stands in one pose and lies in the other."""
    block = Manifold.cube((40, 40, 40)) - cylinder(diameter, 60, 96).translate((20, 20, -10))
    seen = survey(solid_of(block))

    assert lying_bores_mm(seen, DOWN[0]) == []
    assert lying_bores_mm(seen, DOWN[1]) == [pytest.approx(diameter, rel=0.01)]
    assert filled_n(seen, DOWN[0]) == (0, 0)
    assert filled_n(seen, DOWN[1]) == (filled, 0)


def test_a_slot_fills_where_it_lies_flat() -> None:
    """A slot of 30 x 4 through a block: its roof is 30 long with z down, and bridged, 4 wide, with y down."""
    seen = survey(solid_of(Manifold.cube((20, 44, 44)) - Manifold.cube((40, 30, 4)).translate((-10, 7, 20))))

    assert filled_n(seen, (0.0, 0.0, -1.0)) == (1, 0)
    assert filled_n(seen, (0.0, -1.0, 0.0)) == (0, 0)
