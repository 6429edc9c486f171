"""Speeds and acceleration: what the printer runs, what grips the bed, what keeps outlines true."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.rules.settings.setting_rule import PRACTICE, Case, SettingRule, compared
from planner.rules.settings.tidy_number import tidy_down


def speeds(case: Case) -> list[Finding]:
    """Speeds and acceleration within what the printer does; more is only a wrong estimate elsewhere."""
    settings, printer = case.settings, case.printer
    asked = {**case.line_speeds, "travel": settings.travel_speed_mm_s}
    fastest = max(asked, key=lambda kind: asked[kind].value)
    return [
        compared(
            "speed.reach",
            fastest,
            measured=asked[fastest].value,
            high=printer.speed_max_mm_s.value,
            unit="mm/s",
            what=f"the fastest speed, {fastest},",
            remedy=f"{printer.name} runs it at {printer.speed_max_mm_s.value:g} mm/s, and the plan counts with that",
            source=printer.speed_max_mm_s.source,
            worse=Verdict.GO,
        ),
        compared(
            "acceleration.reach",
            "acceleration",
            measured=settings.acceleration_mm_s2.value,
            high=printer.acceleration_max_mm_s2.value,
            unit="mm/s2",
            what="the acceleration",
            remedy=f"{printer.name} runs {printer.acceleration_max_mm_s2.value:g} mm/s2, and the plan counts with that",
            source=printer.acceleration_max_mm_s2.source,
            worse=Verdict.GO,
        ),
    ]


def first_speed(case: Case) -> list[Finding]:
    """Compare the first layer's speed with what grips: the colder the bed, the slower.

    At the low end of the material's bed temperatures ``cold_mm_s`` is the most, at the usual one ``most_mm_s``, in
    between in proportion.
    """
    cold, most = (case.limit("speed.first", key) for key in ("cold_mm_s", "most_mm_s"))
    usual = case.bed_c
    bed = (case.settings.bed_c or usual).value
    warm = min(max((bed - usual.low) / max(usual.value - usual.low, 1e-9), 0.0), 1.0)
    grips = min(cold.value, most.value) + warm * max(most.value - cold.value, 0.0)
    return [
        compared(
            "speed.first",
            "first layer",
            measured=case.settings.first_layer_speed_mm_s.value,
            high=grips,
            unit="mm/s",
            what=f"the first layer's speed on a bed at {bed:g} °C",
            remedy=f"print the first layer at {tidy_down(grips, 1.0):g} mm/s or less, so that it grips"
            + (", or warm the bed" if warm < 1.0 else ""),
            source=most.source if warm == 1.0 else cold.source,
            worse=Verdict.GO_WITH_WORK,
        )
    ]


def ringing(case: Case) -> list[Finding]:
    """Compare the outer contour's speed with the printer's own: near its most, outlines wave."""
    asked, fastest = case.settings.outer_contour_speed_mm_s.value, case.printer.speed_max_mm_s.value
    low, high = (case.limit("speed.ringing", key) for key in ("low_share", "most_share"))
    doubtful = asked <= high.value * fastest
    limit = (low if doubtful else high).value * fastest
    return [
        compared(
            "speed.ringing",
            "outer contour",
            measured=asked,
            high=limit,
            unit="mm/s",
            what=f"the outer contour's speed on a printer that runs {fastest:g} mm/s",
            remedy="look at a test print: outlines may wave, and bores lose their shape"
            if doubtful
            else f"lower its speed to {tidy_down(limit, 1.0):g} mm/s or less: outlines wave, bores lose their shape",
            source=(low if doubtful else high).source,
            worse=Verdict.GO if doubtful else Verdict.GO_WITH_WORK,
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
            remedy="print surfaces that show or slide slower than the lines inside",
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
            remedy="the speeds asked for are hardly ever reached: raise it, or expect longer prints",
            source=least.source,
            worse=Verdict.GO,
        ),
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


RULES: tuple[SettingRule, ...] = (speeds, first_speed, ringing, speeds_in_order, flexible_slowly)
