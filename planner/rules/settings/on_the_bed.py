"""What stands on the bed: grip, brim, the room between parts, support and the lean that goes without."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.rules.settings.setting_rule import Case, SettingRule, compared


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
            what="the lean that prints without support",
            remedy=f"set self_supporting_deg between {low.value:g} and {high.value:g}, counted from vertical: "
            "a larger angle lets faces hang in the air, a smaller one wastes support",
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
            "a narrower one tears off, a wider one is only more to cut away",
            source=most.source,
            worse=Verdict.GO,
        )
    ]


def grip(case: Case) -> list[Finding]:
    """Contact against height: tall parts on small feet want a brim."""
    found, least = [], case.limit("grip.contact", "low_share")
    for name, estimate in case.estimates.items():
        share = estimate.contact_mm2 / max(estimate.height_mm, 1e-9) ** 2
        found.append(
            compared(
                "grip.contact",
                "contact",
                measured=share,
                low=least.value if case.settings.brim_mm.value <= 0 else 0.0,
                unit="",
                what=f"the part touches the bed with {estimate.contact_mm2:.0f} mm² and is {estimate.height_mm:.0f} mm "
                "high; contact over height squared",
                remedy="add a brim of 4 mm, or lay it another way: it may come loose",
                source=least.source,
                worse=Verdict.GO,
                part=name,
            )
        )
    return found


def brim_and_spacing(case: Case) -> list[Finding]:
    """Brims of neighbours must not meet."""
    brim, spacing = case.settings.brim_mm.value, case.settings.spacing_mm.value
    least = case.limit("spacing.parts", "low_mm")
    return [
        compared(
            "spacing.parts",
            "spacing",
            measured=spacing,
            low=least.value,
            unit="mm",
            what="the spacing between parts" + (f", outside their {brim:g} mm brims," if brim else ""),
            remedy=f"set spacing_mm to {least.value:g} mm or more: the nozzle must pass between",
            source=least.source,
            worse=Verdict.GO_WITH_WORK,
        )
    ]


def support_needed(case: Case) -> list[Finding]:
    """Support switched off where a surface hangs over air, judged on the drawn poses' overhangs."""
    if case.settings.support != "none":
        return [
            Finding(
                rule="support.needed",
                part=name,
                feature="support",
                verdict=Verdict.GO,
                measured=estimate.support_mm3,
                unit="mm3",
                why=f"{estimate.support_mm3:.0f} mm³ of support is laid under it"
                if estimate.needs_support
                else "it needs no support in its pose",
                source=case.settings.self_supporting_deg.source,
                caution="Take the support off before assembly; keep it out of bores and channels."
                if estimate.needs_support
                else "",
            )
            for name, estimate in case.estimates.items()
        ]
    return [
        Finding(
            rule="support.needed",
            part=name,
            feature="support",
            verdict=Verdict.GO_WITH_WORK if estimate.needs_support else Verdict.GO,
            why="support is switched off, and it " + ("hangs over air" if estimate.needs_support else "needs none"),
            remedy='set support = "where-needed", or lay it another way' if estimate.needs_support else "",
            source=case.settings.self_supporting_deg.source,
        )
        for name, estimate in case.estimates.items()
    ]


RULES: tuple[SettingRule, ...] = (support_angle, brim_width, grip, brim_and_spacing, support_needed)
