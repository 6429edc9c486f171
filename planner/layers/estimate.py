"""Estimate: one copy of one part in its pose, layer by layer, to seconds and grams."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from planner.cache import kept, key_of
from planner.job import Material, Printer, Settings
from planner.layers.bead import bead_area_mm2
from planner.layers.lay import laid_layers
from planner.layers.motion import move_times_s
from planner.layers.paths import KIND_NAMES, NARROW, SUPPORT, TRAVEL, Path
from planner.layers.records import Amount, PartEstimate
from planner.mesh import Solid

Floats = NDArray[np.float64]

LAYERS_VERSION = 5
"""Raised whenever an estimate changes, so that kept ones are not trusted."""
LAYER_CHANGE_S = 0.3
"""Lifting the nozzle at a layer change; common practice, no source."""
RETRACT_S = 0.06
HOP_MM = 50.0
"""Way from one copy to the next on a plate; common practice, no source."""
RETRACT_OVER_MM = 2.0
"""A travel longer than this retracts and primes again; common practice, no source."""
BEFORE_LOG = 0.30
"""Range of an estimate before five plates are logged: 30 % either way; common practice, no source."""
FILAMENT_LOW, FILAMENT_HIGH = 0.9437, 1.0580
"""Mass range from a filament 0.05 mm thinner or thicker than 1.75: (1.70/1.75)2 and (1.80/1.75)2 (geometry)."""


def estimate_part(solid: Solid, *, settings: Settings, printer: Printer, material: Material) -> PartEstimate:
    """Estimate one copy of a solid at size, in its pose, standing on z = 0.

    An unsound mesh is estimated on guessed sections, and ``approximate`` says why. Kept on disk under
    everything that the answer depends on.
    """
    facts = (
        solid.vertices_mm.tobytes(),
        solid.faces.tobytes(),
        solid.faults,
        settings,
        _machine(printer, material, settings),
    )
    found = kept("layers", key_of(LAYERS_VERSION, *facts), lambda: _estimated(solid, settings, printer, material))
    return replace(found, part=solid.name)


def plate_duration_s(estimates: Sequence[PartEstimate], *, settings: Settings, printer: Printer) -> Amount:
    """Return the time of one plate, one estimate a copy: heat-up, every layer of all copies, waiting; no plate change.

    A layer takes at least the least layer time, shared by all copies on the plate.
    """
    layers = np.maximum(layer_sums_s(estimates, settings=settings, printer=printer), settings.least_layer_s.value)
    seconds = printer.heat_up_s.value + float(layers.sum())
    ratio = printer.time_ratio
    if ratio is not None:  # the printer's own log
        return Amount(value=seconds * ratio.value, low=seconds * ratio.low, high=seconds * ratio.high)
    return Amount(value=seconds, low=seconds * (1 - BEFORE_LOG), high=seconds * (1 + BEFORE_LOG))


def layer_sums_s(estimates: Sequence[PartEstimate], *, settings: Settings, printer: Printer) -> Floats:
    """Return the motion time of every layer over all copies, with the hops between them and the layer change once."""
    n = max((len(estimate.layer_s) for estimate in estimates), default=0)
    total, copies = np.full(n, LAYER_CHANGE_S), np.zeros(n)
    for estimate in estimates:
        total[: len(estimate.layer_s)] += estimate.layer_s
        copies[: len(estimate.layer_s)] += 1
    hop = HOP_MM / min(settings.travel_speed_mm_s.value, printer.speed_max_mm_s.value) + RETRACT_S
    return total + np.where(copies > 1, copies * hop, 0.0)


def mass_g(volume_mm3: float, material: Material) -> Amount:
    """Return the mass of deposited plastic; its range comes from the filament's diameter."""
    grams = volume_mm3 / 1000.0 * material.density_g_cm3.value
    return Amount(value=grams, low=grams * FILAMENT_LOW, high=grams * FILAMENT_HIGH)


def _machine(printer: Printer, material: Material, settings: Settings) -> tuple[float, float, float, float, float]:
    """Return speed and acceleration limits, the corner rule (deviation, speed), and the flow limit."""
    deviation, corner = printer.corner_deviation_mm, printer.corner_speed_mm_s
    return (
        printer.speed_max_mm_s.value,
        min(settings.acceleration_mm_s2.value, printer.acceleration_max_mm_s2.value),
        deviation.value if deviation else 0.0,
        corner.value if corner else 0.0,
        min(printer.melt_rate_mm3_s.value, material.melt_rate_mm3_s.value),
    )


def _speeds(settings: Settings, *, first: bool) -> Floats:
    """Return the speed of every kind of line, in the order of ``KIND_NAMES``."""
    asked = [
        settings.outer_contour_speed_mm_s,
        settings.inner_contour_speed_mm_s,
        settings.solid_fill_speed_mm_s,
        settings.infill_speed_mm_s,
        settings.outer_contour_speed_mm_s,
        settings.infill_speed_mm_s,
        settings.first_layer_speed_mm_s,
        settings.travel_speed_mm_s,
    ]
    speeds = np.array([speed.value for speed in asked])
    if first:
        speeds[:TRAVEL] = np.minimum(speeds[:TRAVEL], settings.first_layer_speed_mm_s.value)
    return speeds


def _estimated(solid: Solid, settings: Settings, printer: Printer, material: Material) -> PartEstimate:
    """Cut, lay out and time every layer."""
    vmax, acceleration, deviation, corner, melt = _machine(printer, material, settings)
    width = settings.line_width_mm.value
    whole = laid_layers(solid, settings)
    seconds, lengths, volumes = (np.zeros(len(KIND_NAMES)) for _ in range(3))
    layer_s, peak_flow = [], 0.0
    for index, laid in enumerate(whole.layers()):
        path, high = laid.path, laid.height_mm
        bead = bead_area_mm2(width, high)
        limits = np.minimum(_speeds(settings, first=index == 0), vmax)
        limits[:TRAVEL] = np.minimum(limits[:TRAVEL], melt / bead)
        time, length, top = _timed(path, limits, (acceleration, deviation, corner))
        narrow = laid.narrow_mm2
        if narrow > width**2:  # single lines along what is too narrow; their volume is area times height
            length[NARROW] += narrow * high / bead
            time[NARROW] += narrow * high / bead / limits[NARROW]
        seconds += time
        lengths += length
        volumes[:TRAVEL] += length[:TRAVEL] * bead
        layer_s.append(float(time.sum()))
        peak_flow = max(peak_flow, top * bead)
    approximate = whole.approximate
    if not volumes.sum() and not approximate:
        approximate = "nothing of it is as thick as a layer or as wide as a line"
    return PartEstimate(
        part=solid.name,
        layers_n=len(whole.tops_mm),
        height_mm=float(solid.bounds_mm[1, 2]),
        duration_s=float(sum(layer_s)),
        deposited_mm3=float(volumes.sum()),
        support_mm3=float(volumes[SUPPORT]),
        layer_s=tuple(layer_s),
        layer_z_mm=tuple(float(z) for z in whole.tops_mm),
        kinds_s={name: float(value) for name, value in zip(KIND_NAMES, seconds, strict=True)},
        kinds_mm3={name: float(value) for name, value in zip(KIND_NAMES, volumes, strict=True)},
        kinds_mm={name: float(value) for name, value in zip(KIND_NAMES, lengths, strict=True)},
        peak_flow_mm3_s=peak_flow,
        contact_mm2=float(whole.sections[0].area()),
        needs_support=whole.needs_support,
        approximate=approximate,
    )


def _timed(path: Path, limits: Floats, machine: tuple[float, float, float]) -> tuple[Floats, Floats, float]:
    """Return seconds and mm by kind of line, and the highest speed of a laid line."""
    n = len(KIND_NAMES)
    if not path.points:
        return np.zeros(n), np.zeros(n), 0.0
    points, kinds = np.concatenate(path.points), np.concatenate(path.kinds)
    times, peaks = move_times_s(points, limits[kinds], *machine)
    length = np.linalg.norm(np.diff(points, axis=0), axis=1)
    retracts = int(((kinds == TRAVEL) & (length > RETRACT_OVER_MM)).sum())
    seconds: Floats = np.bincount(kinds, weights=times, minlength=n).astype(np.float64)
    seconds[TRAVEL] += retracts * RETRACT_S
    laid = peaks[kinds != TRAVEL]
    lengths: Floats = np.bincount(kinds, weights=length, minlength=n).astype(np.float64)
    return seconds, lengths, float(laid.max()) if len(laid) else 0.0
