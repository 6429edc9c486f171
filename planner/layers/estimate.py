"""Estimate: one copy of one part in its pose, layer by layer, to seconds and grams."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from planner.cache import holds, kept, key_of
from planner.job import Material, Printer, Settings
from planner.layers.heights import layer_middles_mm
from planner.layers.layer_records import LINE_KINDS, Amount, PartEstimate
from planner.layers.lines.laid_lines import laid_layers
from planner.layers.lines.paths import KIND_NAMES, SUPPORT
from planner.layers.lines.support import Opening
from planner.layers.timed_layers import RETRACT_S, Machine, timed_layers
from planner.mesh import Solid

Floats = NDArray[np.float64]

LAYERS_VERSION = 16
"""Raised whenever an estimate changes, so that kept ones are not trusted."""
LAYER_CHANGE_S = 0.3
"""Lifting the nozzle at a layer change; common practice, no source."""
HOP_MM = 50.0
"""Way from one copy to the next on a plate; common practice, no source."""
BEFORE_LOG = 0.30
"""Range of an estimate before five plates are logged: 30 % either way; common practice, no source."""
FILAMENT_LOW, FILAMENT_HIGH = 0.9437, 1.0580
"""Mass range from a filament 0.05 mm thinner or thicker than 1.75: (1.70/1.75)2 and (1.80/1.75)2 (geometry)."""


def estimate_part(
    solid: Solid,
    *,
    settings: Settings,
    printer: Printer,
    material: Material,
    openings: tuple[Opening, ...] = (),
) -> PartEstimate:
    """Estimate one copy of a solid at size, in its pose, standing on z = 0.

    ``openings`` are the ones that should stay free of support: what fills them is told. An unsound mesh is
    estimated on guessed sections, and ``approximate`` says why. Kept on disk under everything that the answer
    depends on.
    """
    machine = _machine(printer, material, settings)
    key = _key(solid, settings, machine, openings)
    found = kept("layers", key, PartEstimate, lambda: _estimated(solid, settings, machine, openings))
    return replace(found, part=solid.name)


def is_kept(
    solid: Solid, settings: Settings, printer: Printer, material: Material, openings: tuple[Opening, ...]
) -> bool:
    """Return whether the estimate that these make is in the cache; arguments as of :func:`estimate_part`."""
    return holds("layers", _key(solid, settings, _machine(printer, material, settings), openings))


def _key(solid: Solid, settings: Settings, machine: Machine, openings: tuple[Opening, ...]) -> str:
    """Return the content key of everything that an estimate depends on."""
    return key_of(
        LAYERS_VERSION,
        solid.vertices_mm.tobytes(),
        solid.faces.tobytes(),
        solid.faults,
        settings,
        machine,
        *(fact for opening in openings for fact in (opening.name, opening.radius_mm, opening.rods_mm.tobytes())),
    )


def plate_duration_s(
    estimates: Sequence[PartEstimate], *, settings: Settings, printer: Printer, in_turn: bool = False
) -> Amount:
    """Return the time of one plate, one estimate a copy: heat-up, every layer of all copies, waiting; no plate change.

    A layer takes at least the least layer time, shared by all copies on the plate; ``in_turn``, where each copy is
    finished before the next begins, every copy has its own layers.
    """
    sums = layer_sums_s(estimates, settings=settings, printer=printer, in_turn=in_turn)
    layers = np.maximum(sums, settings.least_layer_s.value)
    seconds = printer.heat_up_s.value + float(layers.sum())
    ratio = printer.time_ratio
    if ratio is not None:  # the printer's own log
        return Amount(value=seconds * ratio.value, low=seconds * ratio.low, high=seconds * ratio.high)
    return Amount(value=seconds, low=seconds * (1 - BEFORE_LOG), high=seconds * (1 + BEFORE_LOG))


def plate_kinds_s(
    estimates: Sequence[PartEstimate], *, settings: Settings, printer: Printer, in_turn: bool = False
) -> dict[str, float]:
    """Return what the expected time of a plate is made of, in s: every kind of line, and what no part has alone.

    The values add up to the plate's time before a log's ratio.
    """
    layers = layer_sums_s(estimates, settings=settings, printer=printer, in_turn=in_turn)
    kinds = {kind: sum(estimate.kinds_s[kind] for estimate in estimates) for kind in LINE_KINDS}
    kinds["from copy to copy"] = float(layers.sum()) - sum(kinds.values())
    kinds["waiting for layers to cool"] = float(np.maximum(settings.least_layer_s.value - layers, 0.0).sum())
    kinds["heating up"] = printer.heat_up_s.value
    return kinds


def layer_sums_s(
    estimates: Sequence[PartEstimate], *, settings: Settings, printer: Printer, in_turn: bool = False
) -> Floats:
    """Return the motion time of every layer over all copies, with the hops between them and the layer change once.

    ``in_turn``: the layers of one copy after those of the other, with a hop to each copy after the first.
    """
    hop = HOP_MM / min(settings.travel_speed_mm_s.value, printer.speed_max_mm_s.value) + RETRACT_S
    if in_turn:
        rows = [np.asarray(estimate.layer_s) + LAYER_CHANGE_S for estimate in estimates]
        for row in rows[1:]:
            row[:1] += hop
        return np.concatenate([np.zeros(0), *rows])
    n = max((len(estimate.layer_s) for estimate in estimates), default=0)
    total, copies = np.full(n, LAYER_CHANGE_S), np.zeros(n)
    for estimate in estimates:
        total[: len(estimate.layer_s)] += estimate.layer_s
        copies[: len(estimate.layer_s)] += 1
    return total + np.where(copies > 1, copies * hop, 0.0)


def mass_g(volume_mm3: float, material: Material) -> Amount:
    """Return the mass of deposited plastic; its range comes from the filament's diameter."""
    grams = volume_mm3 / 1000.0 * material.density_g_cm3.value
    return Amount(value=grams, low=grams * FILAMENT_LOW, high=grams * FILAMENT_HIGH)


def _machine(printer: Printer, material: Material, settings: Settings) -> Machine:
    """Return what limits motion on this printer with this material."""
    deviation, corner = printer.corner_deviation_mm, printer.corner_speed_mm_s
    return Machine(
        speed_mm_s=printer.speed_max_mm_s.value,
        acceleration_mm_s2=min(settings.acceleration_mm_s2.value, printer.acceleration_max_mm_s2.value),
        corner_deviation_mm=deviation.value if deviation else 0.0,
        corner_speed_mm_s=corner.value if corner else 0.0,
        melt_rate_mm3_s=min(printer.melt_rate_mm3_s.value, material.melt_rate_mm3_s.value),
    )


def _estimated(solid: Solid, settings: Settings, machine: Machine, openings: tuple[Opening, ...]) -> PartEstimate:
    """Cut, lay out and time every layer."""
    whole = laid_layers(solid, settings)
    found = timed_layers(whole, machine)
    layer = settings.layer_height_mm.value
    approximate = whole.approximate
    if not found.volume_mm3.sum() and not approximate:
        approximate = "no place of it is as thick as a layer and as wide as a line"
    middles = layer_middles_mm(whole.tops_mm)
    inside = {opening.name: whole.supports.inside_mm3(opening, middles, layer) for opening in openings}
    areas = [float(section.area()) for section in whole.sections]
    # The last layer stands for what is left of the part: up to half a layer more, or less, than it is thick.
    thick = np.diff(np.concatenate([[0.0], whole.tops_mm[:-1], [max(float(solid.bounds_mm[1, 2]), 0.0)]]))
    return PartEstimate(
        part=solid.name,
        layers_n=len(whole.tops_mm),
        height_mm=float(solid.bounds_mm[1, 2]),
        duration_s=float(sum(found.layer_s)),
        deposited_mm3=float(found.volume_mm3.sum()),
        support_mm3=float(found.volume_mm3[SUPPORT]),
        layer_s=found.layer_s,
        kinds_s=_by_kind(found.seconds),
        kinds_mm3=_by_kind(found.volume_mm3),
        kinds_mm=_by_kind(found.length_mm),
        peak_flow_mm3_s=found.peak_flow_mm3_s,
        contact_mm2=areas[0],
        needs_support=whole.needs_support,
        bridge_span_mm=max((bridge.span_mm for layer in whole.supports.bridges for bridge in layer), default=0.0),
        supported_mm2=whole.supports.touched_mm2 if whole.needs_support else 0.0,
        support_inside_mm3={name: space for name, space in inside.items() if space > 1.0}
        if whole.needs_support
        else {},
        sections_mm3=float(np.dot(areas, thick)),
        sections_slack_mm3=float(np.abs(np.diff(areas, append=0.0)).sum()) * layer / 2.0,
        approximate=approximate,
    )


def _by_kind(values: Floats) -> dict[str, float]:
    """Return values in the order of ``KIND_NAMES`` by name."""
    return {name: float(value) for name, value in zip(KIND_NAMES, values, strict=True)}
