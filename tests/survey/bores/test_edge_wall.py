"""What is left beside a bore, by distances that were drawn."""

from __future__ import annotations

import pytest

from planner.survey.bores.bores import bores_of
from planner.survey.bores.edge_wall import with_edges
from tests.shapes import bored_plate


@pytest.mark.parametrize("left_mm", [0.4, 1.0, 2.5])
def test_between_a_bore_and_a_side_is_what_was_drawn(left_mm: float) -> None:
    """A bore of 5 mm whose corners come so near to the left side; the place is half-way between both."""
    plate = bored_plate(40, 30, 6, [(2.5 + left_mm, 15, 5.0, 64)])
    (bore,) = with_edges(plate, bores_of(plate)[0])

    assert bore.edge_wall_mm == pytest.approx(left_mm, abs=0.01)
    assert bore.edge_at_mm is not None
    assert bore.edge_at_mm[:2] == pytest.approx((left_mm / 2, 15.0), abs=0.3)


def test_two_bores_share_the_web_between_them() -> None:
    """Bores of 5 and 4 mm, 6 mm apart from axis to axis: 6 - 2.5 - 2 = 1.5 mm for both."""
    plate = bored_plate(60, 40, 6, [(25, 20, 5.0, 64), (31, 20, 4.0, 64)])

    assert [bore.edge_wall_mm for bore in with_edges(plate, bores_of(plate)[0])] == pytest.approx([1.5, 1.5], abs=0.01)
