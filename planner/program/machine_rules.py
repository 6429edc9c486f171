"""Rules about a program and its machine: heights, temperatures, flow, bed, hours and grams."""

from __future__ import annotations

import math

import numpy as np

from planner.finding import Finding, Verdict
from planner.job import Bed
from planner.program.meant import Meant
from planner.program.measure import Measured

HEIGHT_SLACK_MM = 0.015
COLD_BELOW_C = 30.0
"""Filament is not pushed this far below the material's range: the screw strips it; common practice, no source."""
FLOW_SLACK, APART_PERCENT = 1.05, 30.0
MINOR_SHARE = 0.01
"""Less than this share of the filament at a temperature is a wipe or a start, and not the part."""
SOURCE = "measured from the program's motion and words"


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


def _said(
    rule: str,
    verdict: Verdict,
    measured: float | None,
    limit: float | None,
    unit: str,
    why: str,
    remedy: str = "",
    caution: str = "",
) -> Finding:
    """Return a finding of a machine rule."""
    return Finding(
        rule=rule,
        part="",
        feature=rule.split(".")[1],
        verdict=verdict,
        measured=measured,
        limit=limit,
        unit=unit,
        why=why,
        remedy=remedy,
        caution=caution,
        source=SOURCE,
    )


def _heights(measured: Measured, meant: Meant) -> list[Finding]:
    """Compare the first layer and the steps between layers with the settings; a spiral has no steps."""
    layer, first = meant.settings.layer_height_mm.value, meant.settings.first_layer_height_mm.value
    heights = measured.heights_mm[measured.volumes_mm3 > 1e-4 * measured.volumes_mm3.sum()]
    found = []
    start = float(heights[0])
    if measured.spiral_turns > 0:
        return []
    off = abs(start - first) > HEIGHT_SLACK_MM
    found.append(
        _said(
            "program.first",
            Verdict.NO_GO if off else Verdict.GO,
            start,
            first,
            "mm",
            f"the first layer is {start:.3f} mm high, planned {first:.2f} mm",
            "set the first layer's height as planned" if off else "",
        )
    )
    steps = np.diff(heights)
    if not len(steps):
        return found
    middle = float(np.median(steps))
    off = abs(middle - layer) > HEIGHT_SLACK_MM
    found.append(
        _said(
            "program.layer",
            Verdict.NO_GO if off else Verdict.GO,
            middle,
            layer,
            "mm",
            f"layers are {middle:.3f} mm high, planned {layer:.2f} mm",
            "set the layer height as planned" if off else "",
        )
    )
    wide = np.flatnonzero(steps > 1.5 * max(middle, layer))
    if len(wide):
        at = float(heights[wide[0]])
        found.append(
            _said(
                "program.gap",
                Verdict.NO_GO,
                float(steps[wide[0]]),
                1.5 * middle,
                "mm",
                f"nothing is laid between {at:.2f} and {at + float(steps[wide[0]]):.2f} mm: a layer is missing",
                "make the program again from the plate's file",
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
    used = sorted(c for c, volume in laid.items() if volume > MINOR_SHARE * total)
    if not math.isfinite(used[0]):
        return _said(
            rule,
            Verdict.HOLD,
            None,
            low,
            "C",
            f"the program lays filament before it sets the {what}'s temperature",
            f"set the {what} to {usual.value:g} C at the start of the program",
        )
    worst = max(used, key=lambda c: max(low - c, c - high))
    wrong = worst < low - 0.5 or worst > high + 0.5
    return _said(
        rule,
        Verdict.NO_GO if wrong else Verdict.GO,
        worst,
        high if worst > high else low,
        "C",
        f"{what} at {worst:g} C while it prints; {material.name} wants {low:g} to {high:g} C",
        f"set the {what} to {usual.value:g} C" if wrong else "",
    )


def _cold(measured: Measured, meant: Meant) -> list[Finding]:
    """Say where filament is pushed through a cold nozzle."""
    least = meant.material.nozzle_c.low - COLD_BELOW_C
    cold = {c: volume for c, volume in measured.nozzle_c.items() if math.isfinite(c) and c < least}
    if not cold:
        return []
    return [
        _said(
            "program.cold",
            Verdict.NO_GO,
            min(cold),
            least,
            "C",
            f"{sum(cold.values()):.1f} mm3 are pushed at {min(cold):g} C: the nozzle is cold",
            "wait for the nozzle's temperature before the first line",
        )
    ]


def _flow(measured: Measured, meant: Meant) -> Finding:
    """Compare the peak flow with what hot end and material melt."""
    limit = min(meant.printer.melt_rate_mm3_s.value, meant.material.melt_rate_mm3_s.value)
    peak = measured.peak_flow_mm3_s
    over = peak > FLOW_SLACK * limit
    return _said(
        "program.flow",
        Verdict.NO_GO if over else Verdict.GO,
        peak,
        limit,
        "mm3/s",
        f"up to {peak:.1f} mm3/s flow, {limit:g} mm3/s can be melted",
        "print slower" if over else "",
    )


def _on_bed(measured: Measured, meant: Meant) -> Finding:
    """Compare where lines lie with the bed."""
    bed = meant.printer.bed
    out = _outside_mm(measured, bed)
    high = float(measured.high_mm[2]) - bed.height_mm
    over = max(out, high)
    return _said(
        "program.bed-edge",
        Verdict.NO_GO if over > 0.01 else Verdict.GO,
        max(over, 0.0),
        0.0,
        "mm",
        f"lines reach {over:.1f} mm past the bed" if over > 0.01 else "all lines lie on the bed",
        "place the parts inside the bed, its front left corner is zero" if over > 0.01 else "",
    )


def _outside_mm(measured: Measured, bed: Bed) -> float:
    """Return how far lines reach past the bed's box."""
    width, depth = bed.size_mm
    low, high = measured.low_mm, measured.high_mm
    return float(max(-low[0], -low[1], high[0] - width, high[1] - depth, 0.0))


def _amounts(measured: Measured, meant: Meant) -> list[Finding]:
    """Compare hours and grams with the plan's: a word where they are far apart."""
    grams = measured.deposited_mm3 / 1000.0 * meant.material.density_g_cm3.value
    seconds = measured.duration_s + meant.printer.heat_up_s.value
    found = []
    for rule, what, real, planned, unit in (
        ("program.mass", "filament", grams, meant.mass_g, "g"),
        (
            "program.time",
            "time",
            seconds / 3600.0,
            None if meant.duration_s is None else meant.duration_s / 3600.0,
            "h",
        ),
    ):
        if planned is None or planned <= 0:
            continue
        apart = 100.0 * abs(real / planned - 1.0)
        found.append(
            _said(
                rule,
                Verdict.GO,
                real,
                planned,
                unit,
                f"{what}: {real:.2f} {unit}, planned {planned:.2f} {unit}",
                caution="" if apart <= APART_PERCENT else f"That is {apart:.0f} % apart: compare the settings.",
            )
        )
    return found
