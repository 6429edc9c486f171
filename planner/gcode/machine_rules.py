"""Rules about a program and its machine: heights, temperatures, flow, bed, hours and grams."""

from __future__ import annotations

import math

import numpy as np
import shapely

from planner.digits import told_beside
from planner.finding import Finding, Verdict
from planner.gcode.expected import Expected
from planner.gcode.program_finding import compared_finding
from planner.gcode.program_measures import Measured
from planner.job import bed_edge

MINOR_SHARE = 0.01
"""Less than this share of the filament at a temperature is a wipe or a start, and not the part."""


def machine_findings(measured: Measured, expected: Expected) -> list[Finding]:
    """Return the findings of all machine rules."""
    return [
        *_heights(measured, expected),
        _temperature("program.nozzle", measured.nozzle_c, expected, "nozzle"),
        _temperature("program.bed", measured.bed_c, expected, "bed"),
        *_cold(measured, expected),
        _flow(measured, expected),
        _on_bed(measured, expected),
        *_amounts(measured, expected),
    ]


def _heights(measured: Measured, expected: Expected) -> list[Finding]:
    """Compare the first layer and the steps between layers with the settings; a spiral has no steps."""
    if measured.spiral_turns_n > 0:
        return []
    layer, first = expected.settings.layer_height_mm.value, expected.settings.first_layer_height_mm.value
    heights = measured.heights_mm[measured.volumes_mm3 > 1e-4 * measured.volumes_mm3.sum()]
    start = float(heights[0])
    slack = expected.limits.of("program.first", "slack_mm").value
    found = [
        compared_finding(
            "program.first",
            wrong=abs(start - first) > slack,
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
        compared_finding(
            "program.layer",
            wrong=abs(middle - layer) > expected.limits.of("program.layer", "slack_mm").value,
            measured=middle,
            limit=layer,
            unit="mm",
            why=f"layers are {middle:.3f} mm high, planned {layer:.2f} mm",
            remedy="set the layer height as planned",
        )
    )
    return found


def _temperature(rule: str, laid: dict[float, float], expected: Expected, what: str) -> Finding:
    """Compare the temperatures that filament was laid at with the material's range."""
    material, settings = expected.material, expected.settings
    usual = material.nozzle_c if what == "nozzle" else material.bed_c
    stated = settings.nozzle_c if what == "nozzle" else settings.bed_c
    low, high = (stated.low, stated.high) if stated else (usual.low, usual.high)
    total = sum(laid.values())
    used = sorted(c for c, volume in laid.items() if volume > MINOR_SHARE * total) or sorted(laid)
    if not math.isfinite(used[0]):
        return compared_finding(
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
    return compared_finding(
        rule,
        wrong=worst < low - 0.5 or worst > high + 0.5,
        measured=worst,
        limit=high if worst > high else low,
        unit="C",
        why=f"{what} at {worst:g} °C while it prints; {material.name} wants {low:g} to {high:g} °C",
        remedy=f"set the {what} to {usual.value:g} °C",
    )


def _cold(measured: Measured, expected: Expected) -> list[Finding]:
    """Say where filament is pushed through a cold nozzle."""
    least = expected.material.nozzle_c.low - expected.limits.of("program.cold", "below_c").value
    cold = {c: volume for c, volume in measured.nozzle_c.items() if math.isfinite(c) and c < least}
    if not cold:
        return []
    return [
        compared_finding(
            "program.cold",
            wrong=True,
            measured=min(cold),
            limit=least,
            unit="C",
            why=f"{sum(cold.values()):.1f} mm³ are pushed at {min(cold):g} °C: the nozzle is cold",
            remedy="wait for the nozzle's temperature before the first line",
        )
    ]


def _flow(measured: Measured, expected: Expected) -> Finding:
    """Compare the peak flow with what hot end and material melt."""
    limit = min(expected.printer.melt_rate_mm3_s.value, expected.material.melt_rate_mm3_s.value)
    peak, slack = measured.peak_flow_mm3_s, expected.limits.of("program.flow", "slack_percent").value
    return compared_finding(
        "program.flow",
        wrong=peak > (1.0 + slack / 100.0) * limit,
        measured=peak,
        limit=limit,
        unit="mm3/s",
        why=f"up to {told_beside(peak, limit)} mm³/s flow, {limit:g} mm³/s can be melted",
        remedy="print slower",
    )


def _on_bed(measured: Measured, expected: Expected) -> Finding:
    """Compare where lines lie with the bed and its height; zero is the front left corner of the bed's box."""
    bed = expected.printer.bed
    past = float(shapely.distance(bed_edge(bed), shapely.points(measured.rim_mm)).max())
    over = max(past, float(measured.high_mm[2]) - bed.height_mm, 0.0)
    wrong = over > 0.02
    return compared_finding(
        "program.bed-edge",
        wrong=wrong,
        measured=over,
        limit=0.0,
        unit="mm",
        why=f"lines reach {over:.1f} mm past the bed" if wrong else "all lines lie on the bed",
        remedy="place the parts inside the bed, its front left corner is zero",
    )


def _amounts(measured: Measured, expected: Expected) -> list[Finding]:
    """Compare hours and grams with the plan's: a word where they are far apart."""
    grams = measured.deposited_mm3 / 1000.0 * expected.material.density_g_cm3.value
    hours = (measured.duration_s + expected.printer.heat_up_s.value) / 3600.0
    meant_h = None if expected.duration_s is None else expected.duration_s / 3600.0
    found = []
    limits = expected.limits
    for rule, what, real, planned, unit, most in (
        ("program.mass", "filament", grams, expected.mass_g, "g", limits.of("program.mass", "apart_percent")),
        ("program.time", "time", hours, meant_h, "h", limits.of("program.time", "apart_percent")),
    ):
        if planned is None or planned <= 0:
            continue
        apart = 100.0 * abs(real / planned - 1.0)
        found.append(
            compared_finding(
                rule,
                wrong=False,
                measured=real,
                limit=planned,
                unit=unit,
                why=f"{what}: {real:.2f} {unit}, planned {planned:.2f} {unit}",
                caution="" if apart <= most.value else f"That is {apart:.0f} % apart: compare the settings.",
            )
        )
    return found
