"""A printer's bed: what its margins leave."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.job import Bed, usable_ground


@pytest.mark.parametrize(("size_mm", "margin_mm"), [((220.0, 200.0), 5.0), ((180.0, 180.0), 0.0)])
def test_margins_are_kept_clear_at_both_ends(size_mm: tuple[float, float], margin_mm: float) -> None:
    """Twice the margin off both sides: the box of the ground that parts are laid on, which shapely cuts by itself."""
    bed = Bed(size_mm=size_mm, height_mm=200.0, margin_mm=margin_mm)
    x0, y0, x1, y1 = usable_ground(bed).bounds

    assert bed.usable_mm == pytest.approx((x1 - x0, y1 - y0))
    assert bed.usable_mm == (size_mm[0] - 2 * margin_mm, size_mm[1] - 2 * margin_mm)
    assert (x0, y0) == pytest.approx((margin_mm, margin_mm))
    assert replace(bed, margin_mm=margin_mm + 1.0).usable_mm == pytest.approx((x1 - x0 - 2.0, y1 - y0 - 2.0))
