"""Rules about a program and its machine: heights, temperatures, flow, bed, hours and grams."""

from __future__ import annotations

import math

import numpy as np
import shapely

from planner.finding import Finding, Verdict
from planner.gcode.compared import told
from planner.gcode.expected import Meant
from planner.gcode.measure_program import Measured
from planner.job import bed_edge

HEIGHT_SLACK_MM = 0.015
COLD_BELOW_C = 30.0
"""Filament is not pushed this far below the material's range: the screw strips it; common practice, no source."""
FLOW_SLACK, APART_PERCENT = 1.05, 30.0
MINOR_SHARE = 0.01
"""Less than this share of the filament at a temperature is a wipe or a start, and not the part."""


def machine_findings(measured: Measured, meant: Meant) -> list[Finding]:
    """Return the findings of all machine rules."""
    return [
        *_heights(measured, meant),
        _temperature("program.nozzle", measured.nozzle_c, meant, "nozzle"),
        _temperature("program.bed", measured.bed_c, meant, "bed"),
        *_cold(measured, meant),
        _flow(measured, meant),
        _on_bed(measured, meant),
        *_amounts(measured, meant),
    ]


def _heights(measured: Measured, meant: Meant) -> list[Finding]:
    """Compare the first layer and the steps between layers with the settings; a spiral has no steps."""
    if measured.spiral_turns > 0:
        return []
    layer, first = meant.settings.layer_height_mm.value, meant.settings.first_layer_height_mm.value
    heights = measured.heights_mm[measured.volumes_mm3 > 1e-4 * measured.volumes_mm3.sum()]
    start = float(heights[0])
    found = [
        told(
            "program.first",
            wrong=abs(start - first) > HEIGHT_SLACK_MM,
            measured=start,
            limit=first,
            unit="mm",
            why=f"the first layer is {start:.3f} mm high, planned {first:.2f} mm",
            remedy="set the first layer's height as planned",
        )
    ]
    steps = np.diff(heights)
    if not len(steps):
        return found
    middle = float(np.median(steps))
    found.append(
        told(
            "program.layer",
            wrong=abs(middle - layer) > HEIGHT_SLACK_MM,
            measured=middle,
            limit=layer,
            unit="mm",
            why=f"layers are {middle:.3f} mm high, planned {layer:.2f} mm",
            remedy="set the layer height as planned",
        )
    )
    wide = np.flatnonzero(steps > 1.5 * max(middle, layer))
    if len(wide):
        at, step = float(heights[wide[0]]), float(steps[wide[0]])
        found.append(
            told(
                "program.gap",
                wrong=True,
                measured=step,
                limit=1.5 * middle,
                unit="mm",
                why=f"nothing is laid between {at:.2f} and {at + step:.2f} mm: a layer is missing",
                remedy="make the program again from the plate's file",
            )
        )
    return found


def _temperature(rule: str, laid: dict[float, float], meant: Meant, what: str) -> Finding:
    """Compare the temperatures that filament was laid at with the material's range."""
    material, settings = meant.material, meant.settings
    usual = material.nozzle_c if what == "nozzle" else material.bed_c
    stated = settings.nozzle_c if what == "nozzle" else settings.bed_c
    low, high = (stated.low, stated.high) if stated else (usual.low, usual.high)
    total = sum(laid.values())
    used = sorted(c for c, volume in laid.items() if volume > MINOR_SHARE * total) or sorted(laid)
    if not math.isfinite(used[0]):
        return told(
            rule,
            wrong=True,
            worse=Verdict.HOLD,
            measured=None,
            limit=low,
            unit="C",
            why=f"the program lays filament before it sets the {what}'s temperature",
            remedy=f"set the {what} to {usual.value:g} °C at the start of the program",
        )
    worst = max(used, key=lambda c: max(low - c, c - high))
    return told(
        rule,
        wrong=worst < low - 0.5 or worst > high + 0.5,
        measured=worst,
        limit=high if worst > high else low,
        unit="C",
        why=f"{what} at {worst:g} °C while it prints; {material.name} wants {low:g} to {high:g} °C",
        remedy=f"set the {what} to {usual.value:g} °C",
    )


def _cold(measured: Measured, meant: Meant) -> list[Finding]:
    """Say where filament is pushed through a cold nozzle."""
    least = meant.material.nozzle_c.low - COLD_BELOW_C
    cold = {c: volume for c, volume in measured.nozzle_c.items() if math.isfinite(c) and c < least}
    if not cold:
        return []
    return [
        told(
            "program.cold",
            wrong=True,
            measured=min(cold),
            limit=least,
            unit="C",
            why=f"{sum(cold.values()):.1f} mm3 are pushed at {min(cold):g} °C: the nozzle is cold",
            remedy="wait for the nozzle's temperature before the first line",
        )
    ]


def _flow(measured: Measured, meant: Meant) -> Finding:
    """Compare the peak flow with what hot end and material melt."""
    limit = min(meant.printer.melt_rate_mm3_s.value, meant.material.melt_rate_mm3_s.value)
    peak = measured.peak_flow_mm3_s
    return told(
        "program.flow",
        wrong=peak > FLOW_SLACK * limit,
        measured=peak,
        limit=limit,
        unit="mm3/s",
        why=f"up to {peak:.1f} mm3/s flow, {limit:g} mm3/s can be melted",
        remedy="print slower",
    )


def _on_bed(measured: Measured, meant: Meant) -> Finding:
    """Compare where lines lie with the bed and its height; zero is the front left corner of the bed's box."""
    bed = meant.printer.bed
    past = float(shapely.distance(bed_edge(bed), shapely.points(measured.rim_mm)).max())
    over = max(past, float(measured.high_mm[2]) - bed.height_mm, 0.0)
    wrong = over > 0.02
    return told(
        "program.bed-edge",
        wrong=wrong,
        measured=over,
        limit=0.0,
        unit="mm",
        why=f"lines reach {over:.1f} mm past the bed" if wrong else "all lines lie on the bed",
        remedy="place the parts inside the bed, its front left corner is zero",
    )


def _amounts(measured: Measured, meant: Meant) -> list[Finding]:
    """Compare hours and grams with the plan's: a word where they are far apart."""
    grams = measured.deposited_mm3 / 1000.0 * meant.material.density_g_cm3.value
    hours = (measured.duration_s + meant.printer.heat_up_s.value) / 3600.0
    meant_h = None if meant.duration_s is None else meant.duration_s / 3600.0
    found = []
    for rule, what, real, planned, unit in (
        ("program.mass", "filament", grams, meant.mass_g, "g"),
        ("program.time", "time", hours, meant_h, "h"),
    ):
        if planned is None or planned <= 0:
            continue
        apart = 100.0 * abs(real / planned - 1.0)
        found.append(
            told(
                rule,
                wrong=False,
                measured=real,
                limit=planned,
                unit=unit,
                why=f"{what}: {real:.2f} {unit}, planned {planned:.2f} {unit}",
                caution="" if apart <= APART_PERCENT else f"That is {apart:.0f} % apart: compare the settings.",
            )
        )
    return found
