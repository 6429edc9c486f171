"""Settings against themselves and the material: what wastes time, spoils looks, or wants care."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.layers import bead_area_mm2
from planner.rules.settings.setting_rule import PRACTICE, Case, compared

FLEXIBLE_MM_S, BRIM_MOST_MM, ACCELERATION_LEAST = 40.0, 15.0, 300.0
SOFT_MARGIN_C, HOT_SHARE = 15.0, 0.85


def first_line(case: Case) -> list[Finding]:
    """Want the first layer's lines wider than high, and it no thinner than the others."""
    settings = case.settings
    first = settings.first_layer_height_mm.value
    return [
        compared(
            "line.first",
            "first layer",
            measured=settings.line_width_mm.value / first,
            low=1.2,
            unit="x",
            what="the line width over the first layer's height",
            remedy="set a thinner first layer or wider lines: a bead is wider than high, or it does not hold",
            source="geometry of the stadium bead",
            worse=Verdict.GO_WITH_WORK,
        ),
        compared(
            "layer.even",
            "first layer",
            measured=first / settings.layer_height_mm.value,
            low=0.8,
            unit="x",
            what="the first layer over the others",
            remedy="a first layer much thinner than the others wants a bed that is flat to a tenth of a millimetre",
            source=PRACTICE,
            worse=Verdict.GO,
        ),
    ]


def first_flow(case: Case) -> list[Finding]:
    """Compare the first layer's flow with what melts."""
    settings = case.settings
    most = case.melts_mm3_s
    bead = bead_area_mm2(settings.line_width_mm.value, settings.first_layer_height_mm.value)
    return [
        compared(
            "flow.first",
            "first layer",
            measured=settings.first_layer_speed_mm_s.value * bead,
            high=most,
            unit="mm3/s",
            what="the flow of the first layer",
            remedy=f"lower its speed to {most / bead:.0f} mm/s or less",
            source=f"bead area {bead:.4f} mm2 x speed",
            worse=Verdict.GO_WITH_WORK,
        )
    ]


def heat_for_flow(case: Case) -> list[Finding]:
    """Much flow through a nozzle at the cool end of its range bonds badly."""
    settings, usual = case.settings, case.material.nozzle_c
    most = case.melts_mm3_s
    bead = bead_area_mm2(settings.line_width_mm.value, settings.layer_height_mm.value)
    fastest = max(settings.infill_speed_mm_s.value, settings.inner_contour_speed_mm_s.value)
    hot = fastest * bead > HOT_SHARE * most
    return [
        compared(
            "flow.heat",
            "nozzle",
            measured=(settings.nozzle_c or usual).value,
            low=usual.value if hot else usual.low,
            unit="C",
            what=f"the nozzle at {100 * fastest * bead / most:.0f} % of the flow that melts",
            remedy=f"near the most that melts, {usual.value:g} °C or more bonds better",
            source=PRACTICE,
            worse=Verdict.GO,
        )
    ]


def speeds_in_order(case: Case) -> list[Finding]:
    """Outer contours slower than inner ones, travel faster than any line, acceleration that is no brake."""
    settings = case.settings
    lines = max(speed.value for speed in case.line_speeds.values())
    return [
        compared(
            "speed.outer",
            "outer contour",
            measured=settings.outer_contour_speed_mm_s.value,
            high=max(settings.inner_contour_speed_mm_s.value, 1.0),
            unit="mm/s",
            what="the outer contour's speed",
            remedy="what one sees and what slides is laid slower than what is inside",
            source=PRACTICE,
            worse=Verdict.GO,
        ),
        compared(
            "speed.travel",
            "travel",
            measured=settings.travel_speed_mm_s.value,
            low=lines,
            unit="mm/s",
            what="the travel's speed",
            remedy="travel slower than the lines oozes and wastes time",
            source=PRACTICE,
            worse=Verdict.GO,
        ),
        compared(
            "acceleration.least",
            "acceleration",
            measured=settings.acceleration_mm_s2.value,
            low=ACCELERATION_LEAST,
            unit="mm/s2",
            what="the acceleration",
            remedy="the asked speeds are hardly ever reached: raise it, or expect longer hours",
            source=PRACTICE,
            worse=Verdict.GO,
        ),
    ]


def soft_bed(case: Case) -> list[Finding]:
    """Say where a bed hotter than the material softens at spreads the lowest layers."""
    bed = (case.settings.bed_c or case.material.bed_c).value
    return [
        compared(
            "bed.soft",
            "bed",
            measured=bed,
            high=case.material.softens_c.value + SOFT_MARGIN_C,
            unit="C",
            what="the bed",
            remedy="the lowest layers stay soft and spread: bores near the bed come out narrower",
            source=f"{case.material.softens_c.source}; margin of {SOFT_MARGIN_C:g} °C: {PRACTICE}",
            worse=Verdict.GO,
        )
    ]


def flexible_slowly(case: Case) -> list[Finding]:
    """Soft filament buckles when it is pushed fast."""
    if not case.material.flexible:
        return []
    fastest = max(speed.value for speed in case.line_speeds.values())
    return [
        compared(
            "speed.flexible",
            "soft filament",
            measured=fastest,
            high=FLEXIBLE_MM_S,
            unit="mm/s",
            what="the fastest line in a soft filament",
            remedy=f"lower all speeds to {FLEXIBLE_MM_S:g} mm/s or less: soft filament buckles",
            source=PRACTICE,
            worse=Verdict.GO_WITH_WORK,
        )
    ]


def air(case: Case) -> list[Finding]:
    """Say that a material that gives off fumes wants ventilation."""
    if not case.material.fumes:
        return []
    return [
        Finding(
            rule="material.air",
            part="",
            feature="air",
            verdict=Verdict.GO,
            why=f"{case.material.name} gives off fumes while it prints",
            source=PRACTICE,
            caution="Ventilate the room, or print in an enclosure with its own exhaust; follow local rules.",
        )
    ]


def support_angle(case: Case) -> list[Finding]:
    """Want a self-supporting lean that a workshop would believe."""
    return [
        compared(
            "support.angle",
            "self-supporting lean",
            measured=case.settings.self_supporting_deg.value,
            low=25.0,
            high=60.0,
            unit="deg",
            what="the lean that is trusted without support",
            remedy="set self_supporting_deg between 25 and 60: steeper hangs, flatter wastes support",
            source=PRACTICE,
            worse=Verdict.GO_WITH_WORK,
        )
    ]


def brim_width(case: Case) -> list[Finding]:
    """Want a brim of some lines, or none."""
    brim, width = case.settings.brim_mm.value, case.settings.line_width_mm.value
    if brim == 0.0:
        return []
    return [
        compared(
            "brim.width",
            "brim",
            measured=brim,
            low=3 * width,
            high=BRIM_MOST_MM,
            unit="mm",
            what="the brim",
            remedy=f"a brim of {3 * width:.1f} to {BRIM_MOST_MM:g} mm holds; less tears off, more is only cut away",
            source=PRACTICE,
            worse=Verdict.GO,
        )
    ]
