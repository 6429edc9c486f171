"""Settings against themselves and the material: what wastes time, spoils looks, or wants care."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.layers import bead_area_mm2
from planner.rules.settings.setting_rule import PRACTICE, Case, SettingRule, compared


def first_line(case: Case) -> list[Finding]:
    """Want the first layer's lines wider than high, and it no thinner than the others."""
    settings = case.settings
    first = settings.first_layer_height_mm.value
    wide, even = case.limit("line.first", "low_share"), case.limit("layer.even", "low_share")
    return [
        compared(
            "line.first",
            "first layer",
            measured=settings.line_width_mm.value / first,
            low=wide.value,
            unit="x",
            what="the line width over the first layer's height",
            remedy="set a thinner first layer or wider lines: a bead is wider than high, or it does not hold",
            source=wide.source,
            worse=Verdict.GO_WITH_WORK,
        ),
        compared(
            "layer.even",
            "first layer",
            measured=first / settings.layer_height_mm.value,
            low=even.value,
            unit="x",
            what="the first layer over the others",
            remedy="a first layer much thinner than the others needs a bed that is flat to a tenth of a millimetre",
            source=even.source,
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
    share = case.limit("flow.heat", "hot_share")
    hot = fastest * bead > share.value * most
    return [
        compared(
            "flow.heat",
            "nozzle",
            measured=(settings.nozzle_c or usual).value,
            low=usual.value if hot else usual.low,
            unit="C",
            what=f"the nozzle at {100 * fastest * bead / most:.0f} % of the flow that melts",
            remedy=f"near the most that melts, {usual.value:g} °C or more bonds better",
            source=share.source,
            worse=Verdict.GO,
        )
    ]


def speeds_in_order(case: Case) -> list[Finding]:
    """Outer contours slower than inner ones, travel faster than any line, acceleration that is no brake."""
    settings, least = case.settings, case.limit("acceleration.least", "low_mm_s2")
    lines = max(speed.value for speed in case.line_speeds.values())
    return [
        compared(
            "speed.outer",
            "outer contour",
            measured=settings.outer_contour_speed_mm_s.value,
            high=max(settings.inner_contour_speed_mm_s.value, 1.0),
            unit="mm/s",
            what="the outer contour's speed",
            remedy="print what is seen and what slides slower than what lies inside",
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
            low=least.value,
            unit="mm/s2",
            what="the acceleration",
            remedy="the speeds asked for are hardly ever reached: raise it, or expect longer hours",
            source=least.source,
            worse=Verdict.GO,
        ),
    ]


def soft_bed(case: Case) -> list[Finding]:
    """Say where a bed hotter than the material softens at spreads the lowest layers."""
    bed, over = (case.settings.bed_c or case.material.bed_c).value, case.limit("bed.soft", "over_c")
    return [
        compared(
            "bed.soft",
            "bed",
            measured=bed,
            high=case.material.softens_c.value + over.value,
            unit="C",
            what="the bed",
            remedy="the lowest layers stay soft and spread: bores near the bed come out narrower",
            source=f"{case.material.softens_c.source}; margin of {over.value:g} °C: {over.source}",
            worse=Verdict.GO,
        )
    ]


def flexible_slowly(case: Case) -> list[Finding]:
    """Soft filament buckles when it is pushed fast."""
    if not case.material.flexible:
        return []
    fastest = max(speed.value for speed in case.line_speeds.values())
    most = case.limit("speed.flexible", "most_mm_s")
    return [
        compared(
            "speed.flexible",
            "soft filament",
            measured=fastest,
            high=most.value,
            unit="mm/s",
            what="the fastest line in a soft filament",
            remedy=f"lower all speeds to {most.value:g} mm/s or less: soft filament buckles",
            source=most.source,
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
    """Want a self-supporting lean that a workshop would trust."""
    low, high = (case.limit("support.angle", key) for key in ("low_deg", "high_deg"))
    return [
        compared(
            "support.angle",
            "self-supporting lean",
            measured=case.settings.self_supporting_deg.value,
            low=low.value,
            high=high.value,
            unit="deg",
            what="the lean that is trusted without support",
            remedy=f"set self_supporting_deg between {low.value:g} and {high.value:g}: steeper hangs, "
            "flatter wastes support",
            source=low.source,
            worse=Verdict.GO_WITH_WORK,
        )
    ]


def brim_width(case: Case) -> list[Finding]:
    """Want a brim of some lines, or none."""
    brim, width = case.settings.brim_mm.value, case.settings.line_width_mm.value
    if brim == 0.0:
        return []
    lines, most = case.limit("brim.width", "low_lines"), case.limit("brim.width", "most_mm")
    return [
        compared(
            "brim.width",
            "brim",
            measured=brim,
            low=lines.value * width,
            high=most.value,
            unit="mm",
            what="the brim",
            remedy=f"a brim of {lines.value * width:.1f} to {most.value:g} mm holds; "
            "less tears off, more is only cut away",
            source=most.source,
            worse=Verdict.GO,
        )
    ]


RULES: tuple[SettingRule, ...] = (
    first_line,
    first_flow,
    heat_for_flow,
    speeds_in_order,
    soft_bed,
    flexible_slowly,
    air,
    support_angle,
    brim_width,
)
