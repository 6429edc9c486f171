"""Estimate: one copy of one part in its pose, layer by layer, to seconds and grams."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from planner.cache import kept, key_of
from planner.job import Material, Printer, Settings
from planner.layers.bead import bead_area_mm2, pitch_mm
from planner.layers.heights import layer_middles_mm, layer_tops_mm
from planner.layers.motion import move_times_s
from planner.layers.paths import KIND_NAMES, NARROW, SUPPORT, TRAVEL, Path, begin_layer, lay_island
from planner.layers.records import Amount, PartEstimate
from planner.layers.regions import Inset, insets, regions_of
from planner.layers.section import Section, rings_of, sections_of
from planner.layers.support import SHARE, support_mm3, supports_of
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
SUPPORT_LEAST_MM3 = 20.0
"""Less supported space than this is left to luck and a knife; common practice, no source."""
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
    width, layer, first = (
        settings.line_width_mm.value,
        settings.layer_height_mm.value,
        settings.first_layer_height_mm.value,
    )
    tops = layer_tops_mm(float(solid.bounds_mm[1, 2]), first, layer)
    sections, approximate = sections_of(solid, layer_middles_mm(tops))
    supports = supports_of(sections, layer, settings.self_supporting_deg.value)
    needed = support_mm3(supports, layer) > SUPPORT_LEAST_MM3
    laid = needed and settings.support == "where-needed"
    vmax, acceleration, deviation, corner, melt = _machine(printer, material, settings)
    solid_n = (
        math.ceil(settings.solid_bottom_mm.value / layer - 1e-9),
        math.ceil(settings.solid_top_mm.value / layer - 1e-9),
    )
    share = settings.infill_percent.value / 100.0
    seconds, lengths, volumes = (np.zeros(len(KIND_NAMES)) for _ in range(3))
    layer_s, peak_flow = [], 0.0
    last: tuple[Section, float, list[Inset]] | None = None
    for index, section in enumerate(sections):
        high = first if index == 0 else layer
        bead = bead_area_mm2(width, high)
        if last is not None and last[1] == high and _equal(last[0], section):
            islands = last[2]  # a prism repeats its layers
        else:
            islands = [insets(island, width, high, settings.contours_n) for island in section.decompose()]
        last = (section, high, islands)
        path = Path()
        begin_layer(
            path,
            brim=_brim(section, settings, width, high) if index == 0 else [],
            support=(supports[index] if laid else Section(), pitch_mm(width, high, SHARE)),
        )
        for inset in islands:
            lay_island(
                path,
                regions_of(sections, index, inset, solid_n),
                pitches_mm=(pitch_mm(width, high), pitch_mm(width, high, share) if share > 0 else 0.0),
                angle_deg=45.0 if index % 2 else -45.0,
            )
        limits = np.minimum(_speeds(settings, first=index == 0), vmax)
        limits[:TRAVEL] = np.minimum(limits[:TRAVEL], melt / bead)
        time, length, top = _timed(path, limits, (acceleration, deviation, corner))
        narrow = sum(inset.narrow_mm2 for inset in islands)
        if narrow > width**2:  # single lines along what is too narrow; their volume is area times height
            length[NARROW] += narrow * high / bead
            time[NARROW] += narrow * high / bead / limits[NARROW]
        seconds += time
        lengths += length
        volumes[:TRAVEL] += length[:TRAVEL] * bead
        layer_s.append(float(time.sum()))
        peak_flow = max(peak_flow, top * bead)
    if not volumes.sum() and not approximate:
        approximate = "nothing of it is as thick as a layer or as wide as a line"
    return PartEstimate(
        part=solid.name,
        layers_n=len(sections),
        height_mm=float(solid.bounds_mm[1, 2]),
        duration_s=float(sum(layer_s)),
        deposited_mm3=float(volumes.sum()),
        support_mm3=float(volumes[SUPPORT]),
        layer_s=tuple(layer_s),
        layer_z_mm=tuple(float(z) for z in tops),
        kinds_s={name: float(value) for name, value in zip(KIND_NAMES, seconds, strict=True)},
        kinds_mm3={name: float(value) for name, value in zip(KIND_NAMES, volumes, strict=True)},
        kinds_mm={name: float(value) for name, value in zip(KIND_NAMES, lengths, strict=True)},
        peak_flow_mm3_s=peak_flow,
        contact_mm2=float(sections[0].area()),
        needs_support=needed,
        approximate=approximate,
    )


def _equal(one: Section, other: Section) -> bool:
    """Return whether two sections are the same outline."""
    if one.num_vert() != other.num_vert() or one.num_contour() != other.num_contour():
        return False
    return all(
        len(a) == len(b) and np.allclose(a, b, atol=1e-6)
        for a, b in zip(one.to_polygons(), other.to_polygons(), strict=True)
    )


def _brim(section: Section, settings: Settings, width_mm: float, height_mm: float) -> list[Section]:
    """Return the loops of the brim, outermost first, a pitch apart, outside the outline and never in its holes."""
    pitch = pitch_mm(width_mm, height_mm)
    loops_n = round(settings.brim_mm.value / pitch)
    outside = Section([ring for ring in rings_of(section) if _turn(ring) > 0.0])
    return [outside.offset(width_mm / 2 + k * pitch) for k in range(loops_n - 1, -1, -1)]


def _turn(ring: Floats) -> float:
    """Return the signed area of a ring; a hole's is negative."""
    x, y = ring[:, 0], ring[:, 1]
    return float(x @ np.roll(y, -1) - np.roll(x, -1) @ y) / 2.0


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
