"""Settings against each part at size: too few layers, layers that lose matter, bores that close, warping."""

from __future__ import annotations

import math

from planner.finding import Finding, Verdict
from planner.rules.settings.setting_rule import PRACTICE, Case, compared

LAYERS_LEAST, BORE_LINES = 3, 3.0
WARP_SPAN_MM, WARP_BRIM_MM = 80.0, 3.0
VOLUME_OFF_PERCENT = 0.3


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


def layers_hold_it_all(case: Case) -> list[Finding]:
    """Compare the volume by the layers with the mesh's own: what thin layers or a faulty section lose."""
    found = []
    for name, estimate in case.estimates.items():
        survey, factor = case.surveys.get(name), case.job.part(name).scale_percent
        if survey is None or estimate.approximate or survey.volume_mm3 <= 0:
            continue  # an unsound mesh has no volume of its own: its grams are withheld, and the plan says why
        scale = (
            math.prod(factor) / 1e6 if isinstance(factor, tuple) else (factor / 100.0 if factor else case.scale) ** 3
        )
        volume = survey.volume_mm3 * scale
        off = 100.0 * (estimate.sections_mm3 / volume - 1.0)
        found.append(
            compared(
                "layers.volume",
                "volume",
                part=name,
                measured=abs(off),
                high=round(VOLUME_OFF_PERCENT + 100.0 * estimate.sections_slack_mm3 / volume, 2),
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
