"""The bead: its pitch fills the layer, and filament is as long as published."""

from __future__ import annotations

import pytest

from planner.layers import (
    bead_area_mm2,
    pitch_mm,
)


def test_pitch_at_full_share_fills_the_layer() -> None:
    """A / (h share): at share 1 the lines' area over the pitch is the layer's height."""
    assert bead_area_mm2(0.45, 0.2) / pitch_mm(0.45, 0.2) == pytest.approx(0.2)
    assert pitch_mm(0.45, 0.2, 0.2) == pytest.approx(5 * pitch_mm(0.45, 0.2))
