"""What fills a part: contours for its duty and its walls, and what carries the top over sparse infill."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planner.finding import Evidence, Finding, Verdict
from planner.job import Part
from planner.layers import pitch_mm
from planner.phrases import listed
from planner.rules.settings.setting_rule import TOLD_MOST, Case, SettingRule, compared
from planner.rules.settings.tidy_number import tidy_up
from planner.sourced import Sourced

CARRYING = ("load", "pin")
LINES = ("outer contour", "inner contour", "narrow line")


def contours(case: Case) -> list[Finding]:
    """Want contours for the parts' duties, unless those that they have fill them: another one finds no room there.

    A part whose duty nobody stated may carry; where that decides, the finding says "if".
    """
    load, shell = case.limit("contours.load", "low_n"), case.limit("contours.shell", "low_n")
    carry = [part for part in case.job.parts if part.judged_duty in CARRYING or not part.duty_stated]
    cover = [part for part in case.job.parts if part not in carry]
    return [
        *_contours("contours.load", case, carry, load, shell, "walls carry the load, infill adds little"),
        *_contours("contours.shell", case, cover, shell, shell, "behind one line the infill shows and breaks"),
    ]


def _contours(
    rule: str, case: Case, parts: Sequence[Part], least: Sourced, whatever: Sourced, why: str
) -> list[Finding]:
    """Compare the contours with what some parts need; ``whatever`` is needed for any duty."""
    if not parts:
        return []
    asked = float(case.settings.contours_n)
    room = [part for part in parts if not _filled(case, part.name)]
    names = listed((part.name for part in room), most_n=TOLD_MOST)
    guess = asked >= whatever.value and not any(part.duty_stated for part in room)
    return [
        compared(
            rule,
            "contours",
            measured=asked,
            low=least.value if room else min(least.value, asked),
            unit="",
            what=f"the number of contours round {names}" if names else "the number of contours, which fill every part,",
            remedy=("if they carry a load, " if guess else "") + f"set contours_n = {least.value:g} or more: {why}",
            source=least.source,
            worse=Verdict.GO_WITH_WORK,
            evidence=Evidence.GUESSED if guess and room and asked < least.value else Evidence.USUAL,
        )
    ]


def contours_most(case: Case) -> list[Finding]:
    """Say where so many contours leave hardly any inside: hours and plastic."""
    most = case.limit("contours.most", "most_n")
    return [
        compared(
            "contours.most",
            "contours",
            measured=float(case.settings.contours_n),
            high=most.value,
            unit="",
            what="the number of contours",
            remedy="parts become nearly solid: more hours, plastic and warping for little strength",
            source=most.source,
            worse=Verdict.GO,
        )
    ]


def solid_layers(case: Case) -> list[Finding]:
    """Enough solid layers over sparse infill, at top and bottom."""
    settings = case.settings
    least, sparse_percent = (case.limit("solid.layers", key) for key in ("low_layers", "sparse_percent"))
    sparse = settings.infill_percent.value < sparse_percent.value and _hollow(case)
    found = []
    for name, thick in (("top", settings.solid_top_mm), ("bottom", settings.solid_bottom_mm)):
        need_mm = tidy_up(least.value * settings.layer_height_mm.value, 0.01)
        found.append(
            compared(
                "solid.layers",
                f"solid {name}",
                measured=float(_layers_n(case, thick.value)),
                low=least.value if sparse else 0.0,
                unit="layers",
                what=f"the solid {name} over {settings.infill_percent.value:g} % infill",
                remedy=f"set solid_{name}_mm to {need_mm:g} mm or more",
                source=least.source,
                worse=Verdict.GO_WITH_WORK,
            )
        )
    return found


def top_over_span(case: Case) -> list[Finding]:
    """Want a top that is thick for the distance between the lines of infill below it."""
    share, widest = case.limit("solid.span", "low_share"), case.limit("infill.share", "most_span_mm")
    span, thick = _span_mm(case), case.settings.solid_top_mm.value
    if not _hollow(case) or span > widest.value:
        return []  # nothing to span, or nothing that would hold whatever the top: infill.share says so
    need = share.value * span
    return [
        compared(
            "solid.span",
            "solid top",
            measured=_layers_n(case, thick) * case.settings.layer_height_mm.value,
            low=need,
            unit="mm",
            what=f"the solid top over lines of infill {span:.1f} mm apart",
            remedy=f"set solid_top_mm to {tidy_up(need, 0.01):g} mm or more, or more infill: a thin top sags and opens",
            source=f"{share.source}; infill lines lie a pitch over their share apart: geometry",
            worse=Verdict.GO_WITH_WORK,
        )
    ]


def infill_carries(case: Case) -> list[Finding]:
    """Infill between too little to carry a top at all, little, and more than helps."""
    low, high, widest = (case.limit("infill.share", key) for key in ("low_percent", "high_percent", "most_span_mm"))
    infill = case.settings.infill_percent.value
    bare = 100.0 * _pitch_mm(case) / widest.value
    if _hollow(case) and infill < bare:
        least, most, worse = bare, None, Verdict.GO_WITH_WORK
        remedy = f"set infill_percent to {tidy_up(bare, 1.0):g} or more: tops sag over more than {widest.value:g} mm"
    else:
        least, most, worse = (low.value if _hollow(case) else 0.0), high.value, Verdict.GO
        remedy = (
            f"{low.value:g} to {high.value:g} % is usual: with less, tops sag; more costs hours and adds "
            "less strength than contours"
        )
    return [
        compared(
            "infill.share",
            "infill",
            measured=infill,
            low=least,
            high=most,
            unit="%",
            what="the infill",
            remedy=remedy,
            source=low.source if worse is Verdict.GO else widest.source,
            worse=worse,
        )
    ]


def walls_in_lines(case: Case) -> list[Finding]:
    """How many lines the thinnest wall of each part holds: a note where the contours alone do not fill it."""
    width, pitch = case.settings.line_width_mm.value, _pitch_mm(case)
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
        # n lines fill a wall at the width w for which t = n w - (n - 1) h (1 - pi/4): geometry of the stadium bead
        wider = (thick + lines * case.settings.layer_height_mm.value * (1.0 - math.pi / 4.0)) / (lines + 1)
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
                caution=f"{gap:.2f} mm stays open inside it: lines of {wider:.2f} mm fill it" if hollow else "",
            )
        )
    return found


def infill_and_top(case: Case) -> list[Finding]:
    """Run the rules of what lies inside the contours."""
    return [*solid_layers(case), *top_over_span(case), *infill_carries(case)]


def _pitch_mm(case: Case) -> float:
    """Return the distance between neighbouring contours."""
    return pitch_mm(case.settings.line_width_mm.value, case.settings.layer_height_mm.value)


def _span_mm(case: Case) -> float:
    """Return the distance between neighbouring lines of infill: a pitch over the share that they fill."""
    infill = case.settings.infill_percent.value
    return 100.0 * _pitch_mm(case) / infill if infill > 0.0 else math.inf


def _layers_n(case: Case, thick_mm: float) -> int:
    """Return the number of layers that a solid thickness takes."""
    return math.ceil(thick_mm / case.settings.layer_height_mm.value - 1e-9)


def _filled(case: Case, part: str) -> bool:
    """Return whether a part's contours fill it but for corners; without its layers, as ``case.mildest`` says.

    Where even a skin of its whole surface, as thick as the contours and one line more, is less than that share, they
    do not: they lie in that skin, and the surface of the layers is no larger than the mesh's.
    """
    share, estimate = case.limit("contours.load", "full_percent").value / 100.0, case.estimates.get(part)
    if estimate is not None:
        return sum(estimate.kinds_mm3.get(kind, 0.0) for kind in LINES) >= share * estimate.sections_mm3
    hollow_from = filled_up_to(case, part)
    return case.mildest and not (hollow_from is not None and case.scale.factor > hollow_from)


def filled_up_to(case: Case, part: str) -> float | None:
    """Return the scale up to which a part's contours may fill it; None where that hangs on its layers at any scale."""
    survey, own = case.surveys.get(part), case.job.part(part).scale_percent
    if survey is None or survey.faults or survey.volume_mm3 <= 0.0:
        return None
    width, share = case.settings.line_width_mm.value, case.limit("contours.load", "full_percent").value / 100.0
    skin = width + case.settings.contours_n * _pitch_mm(case)
    least = skin * survey.area_mm2 / (share * survey.volume_mm3)
    if own is None:
        return least
    x, y, z = case.factors(part)
    area = max(x * y, y * z, x * z)
    return 0.0 if skin * survey.area_mm2 * area < share * survey.volume_mm3 * x * y * z else math.inf


def _hollow(case: Case) -> bool:
    """Return whether some part has an inside for infill."""
    return not all(_filled(case, part.name) for part in case.job.parts)


RULES: tuple[SettingRule, ...] = (contours, contours_most, infill_and_top, walls_in_lines)
