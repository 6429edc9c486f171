"""Settings against each part at size: too few layers, bores that close, warping, support where it harms."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.fit import UPRIGHT_COS, uprightness
from planner.process.setting_rule import PRACTICE, Case, compared

LAYERS_LEAST, BORE_LINES = 3, 3.0
WARP_SPAN_MM, WARP_BRIM_MM = 80.0, 3.0
SUPPORT_SHARE, LYING_BORE_MM = 0.25, 8.0


def layers_of_part(case: Case) -> list[Finding]:
    """Want a part to have some layers at all."""
    return [
        compared(
            "part.layers",
            "layers",
            part=name,
            measured=float(estimate.layers_n),
            low=float(LAYERS_LEAST),
            unit="layers",
            what=f"{name}",
            remedy="set thinner layers, or lay it another way",
            source=PRACTICE,
            worse=Verdict.GO_WITH_WORK,
        )
        for name, estimate in case.estimates.items()
    ]


def small_bores(case: Case) -> list[Finding]:
    """Say where the smallest bore of a part is hardly wider than the lines around it."""
    width, found = case.settings.line_width_mm.value, []
    for name, survey in case.surveys.items():
        least = min((bore.drawn_diameter_mm for bore in survey.bores), default=None)
        if least is not None:
            found.append(
                compared(
                    "bore.lines",
                    "smallest bore",
                    part=name,
                    measured=least * case.scale,
                    low=BORE_LINES * width,
                    unit="mm",
                    what="the smallest bore",
                    remedy="it may close as it prints: drill it out, or take a finer nozzle",
                    source=f"{BORE_LINES:g} lines across; {PRACTICE}",
                    worse=Verdict.GO_WITH_WORK,
                )
            )
    return found


def warp_span(case: Case) -> list[Finding]:
    """Say where a long part in a material that warps has no brim."""
    warp, brim = case.material.warp.value, case.settings.brim_mm.value
    return [
        compared(
            "warp.span",
            "span",
            part=name,
            measured=warp * max(survey.size_mm) * case.scale,
            high=WARP_SPAN_MM if brim < WARP_BRIM_MM else 4 * WARP_SPAN_MM,
            unit="mm",
            what=f"its length times the readiness to warp ({warp:g})",
            remedy="its corners may lift: a brim of 5 mm, a warmer bed, an enclosure",
            source=f"{case.material.warp.source}; limit: {PRACTICE}",
            worse=Verdict.GO,
        )
        for name, survey in case.surveys.items()
    ]


def support_cost(case: Case) -> list[Finding]:
    """Say what support costs in grams, and where it is a good part of the whole."""
    density, found = case.material.density_g_cm3.value / 1000.0, []
    for name, estimate in case.estimates.items():
        if estimate.support_mm3 <= 0 or estimate.deposited_mm3 <= 0:
            continue
        share = estimate.support_mm3 / estimate.deposited_mm3
        minutes = estimate.kinds_s.get("support", 0.0) / 60.0
        found.append(
            compared(
                "support.cost",
                "support",
                part=name,
                measured=100.0 * share,
                high=100.0 * SUPPORT_SHARE,
                unit="%",
                what=f"support of {estimate.support_mm3 * density:.1f} g and {minutes:.0f} min a copy",
                remedy="look for another pose, or cut the part in two",
                source="layer model; limit: " + PRACTICE,
                worse=Verdict.GO,
            )
        )
    return found


def support_on_skin(case: Case) -> list[Finding]:
    """Say where a part that lies on skin is printed with support: it leaves scars."""
    return [
        Finding(
            rule="support.skin",
            part=part.name,
            feature="skin side",
            verdict=Verdict.GO,
            measured=case.estimates[part.name].support_mm3,
            unit="mm3",
            why=f"{part.name} lies on skin and is printed with support",
            source=PRACTICE,
            caution="Support leaves scars: smooth every place where it stood, and pad it.",
        )
        for part in case.job.parts
        if part.skin_side and part.name in case.estimates and case.estimates[part.name].support_mm3 > 0
    ]


def lying_bores(case: Case) -> list[Finding]:
    """Say where a wide bore lies: its crown sags or is full of support."""
    found = []
    for part in case.job.parts:
        survey = case.surveys.get(part.name)
        if survey is None or part.pose is None:
            continue
        wide = [b for b in survey.bores if uprightness(b.axis, part.pose) < UPRIGHT_COS]
        largest = max((bore.drawn_diameter_mm * case.scale for bore in wide), default=None)
        if largest is not None:
            found.append(
                compared(
                    "bore.crown",
                    "widest lying bore",
                    part=part.name,
                    measured=largest,
                    high=LYING_BORE_MM,
                    unit="mm",
                    what="the widest lying bore",
                    remedy="its crown sags: stand it upright, or ream it round",
                    source=PRACTICE,
                    worse=Verdict.GO,
                )
            )
    return found
