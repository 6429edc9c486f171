"""Settings against the parts: walls, shells, small layers, grip and support."""

from __future__ import annotations

import math

from planner.finding import Finding, Verdict
from planner.layers import pitch_mm
from planner.rules.settings.setting_rule import Case, SettingRule, compared


def contours_fill_walls(case: Case) -> list[Finding]:
    """How many lines the thinnest wall of each part holds: a note where the contours alone do not fill it."""
    width, pitch = case.settings.line_width_mm.value, _pitch(case)
    found = []
    for name, survey in case.surveys.items():
        wall = survey.walls.least_clear
        if wall is None:
            continue
        thick = wall.thickness_mm * min(case.factors(name))
        lines = max(0, math.floor((thick - width) / pitch + 1.0 + 1e-6))
        both = 2 * case.settings.contours_n
        gap = thick - (width + (lines - 1) * pitch) if 0 < lines < both else 0.0
        hollow = gap > 0.5 * width
        wider = _width_for(thick, lines + 1, case)
        found.append(
            Finding(
                rule="wall.lines",
                part=name,
                feature="thinnest wall",
                verdict=Verdict.GO,
                measured=thick,
                limit=width,
                unit="mm",
                why=f"the thinnest wall of {thick:.2f} mm holds {lines} lines of {width:g} mm",
                source="lines lie a pitch A/h apart (geometry of the stadium bead)",
                caution=f"{gap:.2f} mm stay open inside it: lines of {wider:.2f} mm fill it" if hollow else "",
            )
        )
    return found


def _pitch(case: Case) -> float:
    """Return the distance between neighbouring contours."""
    return pitch_mm(case.settings.line_width_mm.value, case.settings.layer_height_mm.value)


def _width_for(thick_mm: float, lines_n: int, case: Case) -> float:
    """Return the line width at which a number of lines fills a wall: t = n w - (n - 1) h (1 - pi/4)."""
    height = case.settings.layer_height_mm.value
    return (thick_mm + (lines_n - 1) * height * (1.0 - math.pi / 4.0)) / lines_n


def solid_layers(case: Case) -> list[Finding]:
    """Enough solid layers over sparse infill, at top and bottom."""
    settings = case.settings
    least, sparse_percent = (case.limit("solid.layers", key) for key in ("low_layers", "sparse_percent"))
    found = []
    for name, thick in (("top", settings.solid_top_mm), ("bottom", settings.solid_bottom_mm)):
        layers = math.ceil(thick.value / settings.layer_height_mm.value - 1e-9)
        sparse = settings.infill_percent.value < sparse_percent.value
        found.append(
            compared(
                "solid.layers",
                f"solid {name}",
                measured=float(layers),
                low=least.value if sparse else 1.0,
                unit="layers",
                what=f"the solid {name} over {settings.infill_percent.value:g} % infill",
                remedy=f"set solid_{name}_mm to {least.value * settings.layer_height_mm.value:.2f} mm or more",
                source=least.source,
                worse=Verdict.GO_WITH_WORK,
            )
        )
    return found


def contours_carry(case: Case) -> list[Finding]:
    """Parts with load or pins want three contours or more."""
    if not any(part.judged_duty in ("load", "pin") for part in case.job.parts):
        return []
    least = case.limit("contours.load", "low_n")
    return [
        compared(
            "contours.load",
            "contours",
            measured=float(case.settings.contours_n),
            low=least.value,
            unit="contours",
            what="the number of contours, with load parts in the job,",
            remedy=f"set contours_n = {least.value:g} or more: walls carry, infill hardly does",
            source=least.source,
            worse=Verdict.GO_WITH_WORK,
        )
    ]


def infill_carries(case: Case) -> list[Finding]:
    """Infill between too little to carry a top and more than helps."""
    low, high = (case.limit("infill.share", key) for key in ("low_percent", "high_percent"))
    return [
        compared(
            "infill.share",
            "infill",
            measured=case.settings.infill_percent.value,
            low=low.value,
            high=high.value,
            unit="%",
            what="the infill",
            remedy=f"{low.value:g} to {high.value:g} % is usual: less sags, more costs hours and hardly helps; "
            "contours do",
            source=low.source,
            worse=Verdict.GO,
        )
    ]


def least_layer(case: Case) -> list[Finding]:
    """Small layers must wait to cool: how long each part waits when it is printed alone."""
    least, low = case.settings.least_layer_s.value, case.limit("layer.cool", "low_s")
    found = [
        compared(
            "layer.cool",
            "least layer time",
            measured=least,
            low=low.value,
            unit="s",
            what="the least layer time",
            remedy=f"set least_layer_s to {low.value:g} s or more, or small parts stay soft and lean",
            source=low.source,
            worse=Verdict.GO_WITH_WORK,
        )
    ]
    for name, estimate in case.estimates.items():
        waiting = sum(max(least - seconds, 0.0) for seconds in estimate.layer_s)
        part = case.job.part(name)
        slow = waiting > estimate.duration_s and part.printed_n == 1
        found.append(
            Finding(
                rule="layer.wait",
                part=name,
                feature="small layers",
                verdict=Verdict.GO,
                measured=waiting,
                limit=estimate.duration_s,
                unit="s",
                why=f"alone on a plate it would wait {waiting / 60:.0f} min for its layers to cool",
                source="layers x least layer time less what they take",
                caution="Print it together with others, so that it does not wait." if slow else "",
            )
        )
    return found


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
                unit="x",
                what=f"contact of {estimate.contact_mm2:.0f} mm2 over {estimate.height_mm:.0f} mm of height, squared,",
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
                why=f"{estimate.support_mm3:.0f} mm3 of support are laid under it"
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


RULES: tuple[SettingRule, ...] = (
    contours_fill_walls,
    solid_layers,
    contours_carry,
    infill_carries,
    least_layer,
    grip,
    brim_and_spacing,
    support_needed,
)
