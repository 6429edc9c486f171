"""All layers of a part, one after the other, timed: seconds and mm by kind of line."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.job import Settings
from planner.layers.head_motion import move_times_s
from planner.layers.lines.bead import bead_area_mm2
from planner.layers.lines.laid_lines import LaidPart
from planner.layers.lines.paths import KIND_NAMES, NARROW, TRAVEL, Path

Floats = NDArray[np.float64]

RETRACT_S = 0.06
RETRACT_OVER_MM = 2.0
"""A travel longer than this retracts and primes again; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Machine:
    """What limits motion: speed, acceleration, the corner rule (deviation, or a speed), and the flow that melts."""

    speed_mm_s: float
    acceleration_mm_s2: float
    corner_deviation_mm: float
    corner_speed_mm_s: float
    melt_rate_mm3_s: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TimedLayers:
    """Totals over all layers, by kind of line in the order of ``KIND_NAMES``, and the motion time of each layer."""

    seconds: Floats
    length_mm: Floats
    volume_mm3: Floats
    layer_s: tuple[float, ...]
    peak_flow_mm3_s: float


def timed_layers(whole: LaidPart, machine: Machine) -> TimedLayers:
    """Lay out and time every layer; layers do not depend on one another's motion."""
    settings, n = whole.settings, len(KIND_NAMES)
    width = settings.line_width_mm.value
    seconds, lengths, volumes = (np.zeros(n) for _ in range(3))
    layer_s, peak_flow = [], 0.0
    for index, laid in enumerate(whole.layers()):
        path, high = laid.path, laid.height_mm
        bead = bead_area_mm2(width, high)
        limits = np.minimum(_speeds(settings, first=index == 0), machine.speed_mm_s)
        limits[:TRAVEL] = np.minimum(limits[:TRAVEL], machine.melt_rate_mm3_s / bead)
        time, length, top = _timed(path, limits, machine)
        narrow = laid.narrow_mm2
        if narrow > width**2:  # single lines along what is too narrow; their volume is area times height
            length[NARROW] += narrow * high / bead
            time[NARROW] += narrow * high / bead / limits[NARROW]
        seconds += time
        lengths += length
        volumes[:TRAVEL] += length[:TRAVEL] * bead
        layer_s.append(float(time.sum()))
        peak_flow = max(peak_flow, top * bead)
    return TimedLayers(
        seconds=seconds,
        length_mm=lengths,
        volume_mm3=volumes,
        layer_s=tuple(layer_s),
        peak_flow_mm3_s=peak_flow,
    )


def _speeds(settings: Settings, *, first: bool) -> Floats:
    """Return the speed of every kind of line, in the order of ``KIND_NAMES``."""
    asked = [
        settings.outer_contour_speed_mm_s,
        settings.inner_contour_speed_mm_s,
        settings.solid_fill_speed_mm_s,
        settings.infill_speed_mm_s,
        settings.outer_contour_speed_mm_s,
        settings.bridge_speed_mm_s or settings.outer_contour_speed_mm_s,
        settings.infill_speed_mm_s,
        settings.first_layer_speed_mm_s,
        settings.travel_speed_mm_s,
    ]
    speeds = np.array([speed.value for speed in asked])
    if first:
        speeds[:TRAVEL] = np.minimum(speeds[:TRAVEL], settings.first_layer_speed_mm_s.value)
    return speeds


def _timed(path: Path, limits: Floats, machine: Machine) -> tuple[Floats, Floats, float]:
    """Return seconds and mm by kind of line, and the highest speed of a laid line."""
    n = len(KIND_NAMES)
    if not path.points:
        return np.zeros(n), np.zeros(n), 0.0
    points, kinds = np.concatenate(path.points), np.concatenate(path.kinds)
    times, peaks = move_times_s(
        points, limits[kinds], machine.acceleration_mm_s2, machine.corner_deviation_mm, machine.corner_speed_mm_s
    )
    length = np.linalg.norm(np.diff(points, axis=0), axis=1)
    retracts = int(((kinds == TRAVEL) & (length > RETRACT_OVER_MM)).sum())
    seconds: Floats = np.bincount(kinds, weights=times, minlength=n).astype(np.float64)
    seconds[TRAVEL] += retracts * RETRACT_S
    laid = peaks[kinds != TRAVEL]
    lengths: Floats = np.bincount(kinds, weights=length, minlength=n).astype(np.float64)
    return seconds, lengths, float(laid.max()) if len(laid) else 0.0
