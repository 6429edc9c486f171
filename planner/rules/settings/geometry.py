"""Settings against the parts: walls, shells, small layers, grip and support."""

from __future__ import annotations

import math

from planner.finding import Finding, Verdict
from planner.layers import pitch_mm
from planner.rules.settings.setting_rule import PRACTICE, Case, compared

SOLID_LAYERS_LEAST = 3
CONTACT_SHARE = 0.02
"""Least contact over height squared; common practice, no source."""


def contours_fill_walls(case: Case) -> list[Finding]:
    """How many lines the thinnest wall of each part holds: a note where the contours alone do not fill it."""
    width, pitch = case.settings.line_width_mm.value, _pitch(case)
    found = []
    for name, survey in case.surveys.items():
        wall = survey.walls.least_clear
        if wall is None:
            continue
        thick = wall.thickness_mm * case.scale
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
    found = []
    for name, thick in (("top", settings.solid_top_mm), ("bottom", settings.solid_bottom_mm)):
        layers = math.ceil(thick.value / settings.layer_height_mm.value - 1e-9)
        sparse = settings.infill_percent.value < 50.0
        found.append(
            compared(
                "solid.layers",
                f"solid {name}",
                measured=float(layers),
                low=float(SOLID_LAYERS_LEAST) if sparse else 1.0,
                unit="layers",
                what=f"the solid {name} over {settings.infill_percent.value:g} % infill",
                remedy=f"set solid_{name}_mm to {SOLID_LAYERS_LEAST * settings.layer_height_mm.value:.2f} mm or more",
                source=PRACTICE,
                worse=Verdict.GO_WITH_WORK,
            )
        )
    return found


def contours_carry(case: Case) -> list[Finding]:
    """Parts with load or pins want three contours or more."""
    if not any(part.judged_duty in ("load", "pin") for part in case.job.parts):
        return []
    return [
        compared(
            "contours.load",
            "contours",
            measured=float(case.settings.contours_n),
            low=3.0,
            unit="contours",
            what="the number of contours, with load parts in the job,",
            remedy="set contours_n = 3 or more: walls carry, infill hardly does",
            source=PRACTICE,
            worse=Verdict.GO_WITH_WORK,
        )
    ]


def infill_carries(case: Case) -> list[Finding]:
    """Infill between too little to carry a top and more than helps."""
    return [
        compared(
            "infill.share",
            "infill",
            measured=case.settings.infill_percent.value,
            low=10.0,
            high=60.0,
            unit="%",
            what="the infill",
            remedy="10 to 60 % is usual: less sags, more costs hours and hardly helps; contours do",
            source="15 or 20 % hardly matters: doi 10.1186/s41205-020-00091-4; ends " + PRACTICE,
            worse=Verdict.GO,
        )
    ]


def least_layer(case: Case) -> list[Finding]:
    """Small layers must wait to cool: how long each part waits when it is printed alone."""
    least = case.settings.least_layer_s.value
    found = [
        compared(
            "layer.cool",
            "least layer time",
            measured=least,
            low=5.0,
            unit="s",
            what="the least layer time",
            remedy="set least_layer_s to 5 s or more, or small parts stay soft and lean",
            source=case.settings.least_layer_s.source,
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
    found = []
    for name, estimate in case.estimates.items():
        share = estimate.contact_mm2 / max(estimate.height_mm, 1e-9) ** 2
        found.append(
            compared(
                "grip.contact",
                "contact",
                measured=share,
                low=CONTACT_SHARE if case.settings.brim_mm.value <= 0 else 0.0,
                unit="x",
                what=f"contact of {estimate.contact_mm2:.0f} mm2 over {estimate.height_mm:.0f} mm of height, squared,",
                remedy="add a brim of 4 mm, or lay it another way: it may come loose",
                source=PRACTICE,
                worse=Verdict.GO,
                part=name,
            )
        )
    return found


def brim_and_spacing(case: Case) -> list[Finding]:
    """Brims of neighbours must not meet."""
    brim, spacing = case.settings.brim_mm.value, case.settings.spacing_mm.value
    return [
        compared(
            "spacing.parts",
            "spacing",
            measured=spacing,
            low=2.0,
            unit="mm",
            what="the spacing between parts" + (f", outside their {brim:g} mm brims," if brim else ""),
            remedy="set spacing_mm to 2 mm or more: the nozzle must pass between",
            source=PRACTICE,
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
