"""What hangs: bridges across their span, and none where nothing hangs."""

from __future__ import annotations

import pytest

from planner.layers import (
    pitch_mm,
)
from planner.sourced import stated
from tests.layers.conftest import Estimated
from tests.shapes import Manifold, solid_of


def test_a_bridge_is_laid_across_its_span_at_its_own_speed(estimated: Estimated) -> None:
    """A gate 4 mm wide and 20 deep: lines across it fill its roof, between the contours and a line's width beyond."""
    gate = solid_of(Manifold.cube((20, 20, 20)) - Manifold.cube((4, 30, 10)).translate((8, -5, 0)))
    slow, fast = (estimated(gate, bridge_speed_mm_s=stated(speed)) for speed in (10.0, 40.0))
    pitch = pitch_mm(0.45, 0.2)
    deep = 20 - 2 * ((0.45 - pitch) / 2 + 3 * pitch)  # inside three contours at either side
    meant = deep * (4 + 2 * (0.45 - 0.2)) / pitch  # less what the layer below reaches over, plus a line's width

    assert slow.bridge_span_mm == pytest.approx(4.0, abs=0.5)
    assert slow.kinds_mm["bridge"] == pytest.approx(meant, rel=0.06)
    assert slow.kinds_s["bridge"] > 3 * fast.kinds_s["bridge"]
    assert slow.deposited_mm3 == pytest.approx(fast.deposited_mm3)
    assert not slow.needs_support


def test_a_solid_without_overhang_has_no_bridge(estimated: Estimated) -> None:
    """A cone and a box bridge nothing."""
    assert estimated(solid_of(Manifold.cylinder(20, 12, 3, 96))).bridge_span_mm == 0.0
    assert estimated(solid_of(Manifold.cube((20, 20, 10)))).kinds_mm["bridge"] == 0.0
