"""Estimates: mass from what is laid, by closed forms; sections that add up to the volume."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.job import Material, Printer, Settings
from planner.layers import (
    layer_sums_s,
    mass_g,
    plate_duration_s,
    plate_kinds_s,
)
from planner.sourced import stated
from tests.layers.conftest import Estimated
from tests.shapes import cuboid


def test_a_solid_cuboid_at_full_infill_weighs_its_volume(estimated: Estimated, petg: Material) -> None:
    """100 % infill fills the volume: mass within 2 % of rho V."""
    estimate = estimated(cuboid(40, 30, 20), infill_percent=stated(100.0))

    assert mass_g(estimate.deposited_mm3, petg).value == pytest.approx(1.27 * 24.0, rel=0.02)


def test_finer_layers_never_print_faster(estimated: Estimated) -> None:
    """Halving the layers makes it slower."""
    part = cuboid(20, 20, 12)

    assert estimated(part, layer_height_mm=stated(0.1)).duration_s > estimated(part).duration_s


def test_flow_is_capped_at_what_melts(estimated: Estimated, petg: Material) -> None:
    """However fast the settings, no line is laid faster than the material melts."""
    fast = estimated(cuboid(60, 60, 4), infill_speed_mm_s=stated(180.0), inner_contour_speed_mm_s=stated(180.0))

    assert fast.peak_flow_mm3_s <= petg.melt_rate_mm3_s.value + 1e-6


def test_a_plate_waits_for_the_least_layer_time_once(
    estimated: Estimated, standard: Settings, printer: Printer
) -> None:
    """Alone, a small part waits 8 s a layer; ten copies share the waiting; heat-up counts once."""
    small = estimated(cuboid(5, 5, 10))
    alone = plate_duration_s([small], settings=standard, printer=printer)
    ten = plate_duration_s([small] * 10, settings=standard, printer=printer)

    assert alone.value == pytest.approx(300.0 + 8.0 * small.layers_n)
    assert ten.value == pytest.approx(
        300.0 + np.maximum(layer_sums_s([small] * 10, settings=standard, printer=printer), 8.0).sum()
    )
    assert alone.low < alone.value < alone.high
    for copies, whole in (([small], alone), ([small] * 10, ten)):
        kinds = plate_kinds_s(copies, settings=standard, printer=printer)
        assert sum(kinds.values()) == pytest.approx(whole.value)
        assert min(kinds.values()) >= 0.0


def test_one_kilogram_of_filament_is_as_long_as_published(petg: Material) -> None:
    """327.36 m of 1.75 mm PETG at 1.27 g/cm3 weigh 1 kg (computed from density)."""
    volume = 327_360.0 * math.pi / 4 * 1.75**2

    assert mass_g(volume, petg).value == pytest.approx(1000.0, rel=1e-4)
