"""Settings against each part at size: too few layers, layers that lose volume, bores that close, warping."""

from __future__ import annotations

import math

from planner.finding import Finding, Verdict
from planner.rules.settings.setting_rule import Case, SettingRule, compared


def layers_of_part(case: Case) -> list[Finding]:
    """Want a part to have some layers at all."""
    least = case.limit("part.layers", "low_layers")
    return [
        compared(
            "part.layers",
            "layers",
            part=name,
            measured=float(estimate.layers_n),
            low=least.value,
            unit="layers",
            what=f"{name}",
            remedy="set thinner layers, or lay it another way",
            source=least.source,
            worse=Verdict.GO_WITH_WORK,
        )
        for name, estimate in case.estimates.items()
    ]


def layers_hold_it_all(case: Case) -> list[Finding]:
    """Compare the volume by the layers with the mesh's own: what thin layers or a faulty section lose."""
    found, most = [], case.limit("layers.volume", "most_percent")
    for name, estimate in case.estimates.items():
        survey = case.surveys.get(name)
        if survey is None or estimate.approximate or survey.volume_mm3 <= 0:
            continue  # an unsound mesh has no volume of its own: its grams are withheld, and the plan says why
        scale = math.prod(case.factors(name))
        volume = survey.volume_mm3 * scale
        off = 100.0 * (estimate.sections_mm3 / volume - 1.0)
        found.append(
            compared(
                "layers.volume",
                "volume",
                part=name,
                measured=abs(off),
                high=round(most.value + 100.0 * estimate.sections_slack_mm3 / volume, 2),
                unit="%",
                what=f"the difference between the layers' volume and the mesh's ({off:+.2f} %)",
                remedy="look at the mesh and its pose: the layers do not hold all of it",
                source="midpoint rule over the sections: half a layer times the change of area",
                worse=Verdict.HOLD,
            )
        )
    return found


def small_bores(case: Case) -> list[Finding]:
    """Say where the smallest bore of a part is hardly wider than the lines around it."""
    width, found, lines = case.settings.line_width_mm.value, [], case.limit("bore.lines", "low_lines")
    for name, survey in case.surveys.items():
        least = min((bore.drawn_diameter_mm for bore in survey.bores), default=None)
        if least is not None:
            found.append(
                compared(
                    "bore.lines",
                    "smallest bore",
                    part=name,
                    measured=least * min(case.factors(name)),
                    low=lines.value * width,
                    unit="mm",
                    what="the smallest bore",
                    remedy="it may close as it prints: drill it out, or take a finer nozzle",
                    source=lines.source,
                    worse=Verdict.GO_WITH_WORK,
                )
            )
    return found


def warp_span(case: Case) -> list[Finding]:
    """Say where a long part in a material that warps has no brim."""
    warp, brim = case.material.warp.value, case.settings.brim_mm.value
    span, held = case.limit("warp.span", "most_mm"), case.limit("warp.span", "brim_mm")
    return [
        compared(
            "warp.span",
            "span",
            part=name,
            measured=warp * max(side * factor for side, factor in zip(survey.size_mm, case.factors(name), strict=True)),
            high=span.value if brim < held.value else 4 * span.value,
            unit="mm",
            what=f"its length times the material's tendency to warp ({warp:g})",
            remedy="its corners may lift: a brim of 5 mm, a warmer bed, an enclosure",
            source=f"{case.material.warp.source}; limit: {span.source}",
            worse=Verdict.GO,
        )
        for name, survey in case.surveys.items()
    ]


RULES: tuple[SettingRule, ...] = (
    layers_of_part,
    layers_hold_it_all,
    small_bores,
    warp_span,
)
