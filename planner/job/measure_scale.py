"""From a measure of a person to a scale."""

from __future__ import annotations

import math

from planner.job.measured_size import Measure, MeasureKind

PADDING_TIMES: dict[MeasureKind, float] = {"width": 2.0, "around": 2.0 * math.pi, "length": 0.0}
"""How often the padding's thickness counts: twice across, 2 pi times around (geometry), never along."""


def scale_from(measure: Measure, device_mm: float) -> float:
    """Return the scale in percent: (recipient + k padding + ease) / device, geometry.

    >>> m = Measure(name="wide", kind="width", recipient_mm=58, device_mm=62, padding_mm=3, ease_mm=2)
    >>> round(scale_from(m, 62.0), 2)
    106.45
    """
    return 100.0 * (padded_mm(measure) + measure.ease_mm) / device_mm


def padded_mm(measure: Measure) -> float:
    """Return the recipient's measure with the padding on, without ease: recipient + k padding.

    >>> padded_mm(Measure(name="wide", kind="width", recipient_mm=58, device_mm=62, padding_mm=3))
    64.0
    """
    return measure.recipient_mm + PADDING_TIMES[measure.kind] * measure.padding_mm
