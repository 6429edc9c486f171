"""From a measure to a scale: padding counts twice across, 2 pi times around, never along."""

from __future__ import annotations

import math

import pytest

from planner.job import Measure
from planner.job.measure_scale import padded_mm, scale_from
from planner.job.measured_size import MeasureKind


@pytest.mark.parametrize(("kind", "times"), [("width", 2.0), ("around", 2 * math.pi), ("length", 0.0)])
def test_padding_counts_as_geometry_says(kind: MeasureKind, times: float) -> None:
    """A circle of radius r grown by t is 2 pi t longer round; a width grows by 2 t."""
    measure = Measure(name="m", kind=kind, recipient_mm=100.0, device_mm=100.0, padding_mm=3.0, ease_mm=1.0)

    assert padded_mm(measure) == pytest.approx(100.0 + times * 3.0)
    assert scale_from(measure, 50.0) == pytest.approx(2 * (101.0 + times * 3.0))
