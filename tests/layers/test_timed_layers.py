"""Timed layers: one straight line by hand, flow that limits speed, and a travel that retracts."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from planner.job import Settings
from planner.layers.lines.bead import bead_area_mm2
from planner.layers.lines.paths import INFILL, OUTER, TRAVEL, Path
from planner.layers.timed_layers import RETRACT_S, Machine, TimedLayers, timed_layers
from planner.sourced import stated

FAST = Machine(
    speed_mm_s=1000.0,
    acceleration_mm_s2=1e9,
    corner_deviation_mm=1.0,
    corner_speed_mm_s=0.0,
    melt_rate_mm3_s=1000.0,
)
"""A machine that neither speeds up nor brakes: times are length over speed."""


def _layer(path: Path, high_mm: float, narrow_mm2: float = 0.0) -> Any:
    """Return a layer."""
    return SimpleNamespace(path=path, height_mm=high_mm, narrow_mm2=narrow_mm2)


def _line(*points: tuple[float, float], kind: int = INFILL) -> Path:
    """Return a path of one line."""
    path = Path()
    path.run(np.array(points, dtype=np.float64), kind)
    return path


def _timed(settings: Settings, *layers: Any, machine: Machine = FAST) -> TimedLayers:
    """Time a first layer that lays nothing, then the layers given."""
    whole: Any = SimpleNamespace(settings=settings, layers=lambda: iter([_layer(Path(), 0.2), *layers]))
    return timed_layers(whole, machine)


@pytest.fixture(name="settings")
def _settings(standard: Settings) -> Settings:
    """Return settings with round speeds."""
    return replace(
        standard, infill_speed_mm_s=stated(50.0), outer_contour_speed_mm_s=stated(20.0), travel_speed_mm_s=stated(100.0)
    )


def test_a_line_takes_its_length_over_its_speed_and_its_bead(settings: Settings) -> None:
    """100 mm at 50 mm/s are 2 s; the volume is the bead's area times the length; no other kind has anything."""
    found = _timed(settings, _layer(_line((0, 0), (100, 0)), 0.2))
    bead = bead_area_mm2(settings.line_width_mm.value, 0.2)

    assert found.seconds[INFILL] == pytest.approx(2.0, rel=1e-3)
    assert found.length_mm[INFILL] == pytest.approx(100.0)
    assert found.volume_mm3[INFILL] == pytest.approx(100.0 * bead)
    assert found.seconds.sum() == pytest.approx(found.seconds[INFILL])
    assert found.layer_s == pytest.approx((0.0, found.seconds[INFILL]))
    assert found.peak_flow_mm3_s == pytest.approx(50.0 * bead)


def test_flow_limits_laid_lines_and_the_machine_limits_all(settings: Settings) -> None:
    """A hot end that melts for 10 mm/s makes 100 mm last 10 s; a machine of 25 mm/s 4 s."""
    bead = bead_area_mm2(settings.line_width_mm.value, 0.2)
    layer = _layer(_line((0, 0), (100, 0)), 0.2)

    slow = _timed(settings, layer, machine=replace(FAST, melt_rate_mm3_s=10.0 * bead))
    assert slow.seconds[INFILL] == pytest.approx(10.0, rel=1e-3)
    assert slow.peak_flow_mm3_s == pytest.approx(10.0 * bead)
    assert _timed(settings, layer, machine=replace(FAST, speed_mm_s=25.0)).seconds[INFILL] == pytest.approx(
        4.0, rel=1e-3
    )


def test_the_first_layer_goes_at_its_own_speed(settings: Settings) -> None:
    """100 mm first and 100 mm above: only the first at the first layer's speed."""
    slow = replace(settings, first_layer_speed_mm_s=stated(10.0))
    layer = _layer(_line((0, 0), (100, 0)), 0.2)
    whole: Any = SimpleNamespace(settings=slow, layers=lambda: iter([layer, layer]))

    assert timed_layers(whole, FAST).layer_s == pytest.approx((10.0, 2.0), rel=1e-3)


def test_a_travel_is_timed_lays_nothing_and_retracts_where_it_is_long(settings: Settings) -> None:
    """Between two contours: 50 mm at 100 mm/s are 0.5 s and a retraction; over 1 mm there is none."""
    for gap_mm, retracts_s in ((50.0, RETRACT_S), (1.0, 0.0)):
        path = _line((0, 0), (10, 0), kind=OUTER)
        path.run(np.array([(10 + gap_mm, 0.0), (20 + gap_mm, 0.0)]), OUTER)
        found = _timed(settings, _layer(path, 0.2))

        assert found.seconds[TRAVEL] == pytest.approx(gap_mm / 100.0 + retracts_s, rel=1e-3)
        assert found.volume_mm3[TRAVEL] == 0.0
        assert found.length_mm[OUTER] == pytest.approx(20.0)


def test_what_is_too_narrow_is_laid_as_its_volume(settings: Settings) -> None:
    """4 mm2 at 0.2 mm high are 0.8 mm3 in one line; less than a line squared is nothing."""
    width = settings.line_width_mm.value

    assert _timed(settings, _layer(Path(), 0.2, 4.0)).volume_mm3.sum() == pytest.approx(0.8)
    assert _timed(settings, _layer(Path(), 0.2, 0.99 * width**2)).volume_mm3.sum() == 0.0
