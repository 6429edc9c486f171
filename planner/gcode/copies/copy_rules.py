"""Rules about single copies: air below, gaps, what lies outside, what is left open, and filament."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from planner.finding import Finding
from planner.gcode.copies.differences import Difference
from planner.gcode.copies.size_rules import Copy, height_finding, size_finding
from planner.gcode.program_finding import motion_finding
from planner.job import Limits, Settings

Range = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class FedLimits:
    """Filament as a share: over what fills all solid layers, a few layers anywhere, and over what the lines take."""

    whole: Range
    part: Range
    line: Range

    @classmethod
    def of(cls, limits: Limits) -> FedLimits:
        """Return the limits of a job."""

        def ends(low: str, high: str) -> Range:
            return limits.of("program.fed", low).value / 100.0, limits.of("program.fed", high).value / 100.0

        return cls(
            whole=ends("whole_low_percent", "whole_high_percent"),
            part=ends("part_low_percent", "part_high_percent"),
            line=ends("line_low_percent", "line_high_percent"),
        )


def copy_findings(copies: Sequence[Copy], settings: Settings, limits: Limits) -> list[Finding]:
    """Return the findings about all copies; equal copies share a finding, and the worst gives its numbers."""
    layer = settings.layer_height_mm.value
    first, air = settings.first_layer_height_mm.value, limits.of("program.air", "above_layers").value
    fed = FedLimits.of(limits)
    return [
        *_gathered(copies, lambda copy: size_finding(copy, layer, limits)),
        *_gathered(copies, lambda copy: height_finding(copy, layer, limits)),
        *_gathered(copies, lambda copy: _air(copy, first, first + air * layer)),
        *_gathered(copies, _gaps),
        *_gathered(copies, _outside),
        *_gathered(copies, _lacks),
        *_gathered(copies, lambda copy: _feed(copy, fed)),
        *_fed_well(copies, fed),
    ]


def _gathered(copies: Sequence[Copy], rule: Callable[[Copy], Finding | None]) -> list[Finding]:
    """Ask a rule of every copy; findings of one rule about one part become one, the first with the number of copies."""
    found = [finding for copy in copies if (finding := rule(copy)) is not None]
    count = Counter((finding.rule, finding.part) for finding in found)
    first = {(finding.rule, finding.part): finding for finding in reversed(found)}
    return [
        replace(finding, why=f"{count[key]} x {finding.why}" if count[key] > 1 else finding.why)
        for key, finding in first.items()
    ]


def _air(copy: Copy, first_mm: float, most_mm: float) -> Finding | None:
    """Say that a copy begins in mid-air."""
    if copy.report is None or copy.report.bottom_mm <= most_mm:
        return None
    return motion_finding(
        "program.air",
        wrong=True,
        part=copy.part,
        measured=copy.report.bottom_mm,
        limit=first_mm,
        unit="mm",
        why=f"{copy.part} begins in mid-air: its lowest lines lie at {copy.report.bottom_mm:.2f} mm",
        remedy="stand the part on the bed and make the program again",
    )


def _gaps(copy: Copy) -> Finding | None:
    """Say where layers of a copy are missing."""
    if copy.report is None or not copy.report.gaps_mm:
        return None
    low, high = copy.report.gaps_mm[0]
    more = f", and in {len(copy.report.gaps_mm) - 1} more places" if len(copy.report.gaps_mm) > 1 else ""
    return motion_finding(
        "program.gap",
        wrong=True,
        part=copy.part,
        measured=high - low,
        limit=0.0,
        unit="mm",
        why=f"{copy.part}: nothing is laid between {low:.2f} and {high:.2f} mm{more}: layers are missing",
        remedy="make the program again from the plate's file",
    )


def _place(where: Difference) -> str:
    """Say where a difference lies and how large it is."""
    (wide, deep), (x, y) = where.size_mm, where.at_mm
    return (
        f"{where.area_mm2:.1f} mm² over {wide:.1f} x {deep:.1f} mm, about x {x:.1f}, y {y:.1f} of the part as "
        f"planned, from {where.low_mm:.2f} to {where.high_mm:.2f} mm above the bed"
    )


def _outside(copy: Copy) -> Finding | None:
    """Say where a copy has plastic that the part has not."""
    return _differs(
        copy,
        copy.report.over if copy.report else (),
        "program.outside",
        "has plastic where the part has none",
        "a filled bore or slot comes from another version of the part",
    )


def _lacks(copy: Copy) -> Finding | None:
    """Say where a copy leaves open what the part fills."""
    return _differs(
        copy,
        copy.report.open if copy.report else (),
        "program.lacks",
        "is left open where the part has plastic",
        "thin walls may have been left out",
    )


def _differs(copy: Copy, places: Sequence[Difference], rule: str, how: str, comes_from: str) -> Finding | None:
    """Say where a copy differs from its part, the largest place first; None where it does not."""
    if not places:
        return None
    return motion_finding(
        rule,
        wrong=True,
        part=copy.part,
        measured=sum(one.volume_mm3 for one in places),
        limit=0.0,
        unit="mm3",
        why=f"{copy.part} {how}, in {len(places)} places, the most: {_place(places[0])}",
        remedy=f"load the plate's file again; {comes_from}",
    )


def _beyond(value: float, limits: Range) -> bool:
    """Return whether a value lies outside its limits."""
    return not limits[0] <= value <= limits[1]


def _feed(copy: Copy, limits: FedLimits) -> Finding | None:
    """Say that lines get too little or too much filament, or that lines are missing or too many."""
    report = copy.report
    if report is None:
        return None
    whole = report.motion_fed_share if report.solid_fed_share is None else report.solid_fed_share
    odd = [window for window in report.windows if _beyond(window.planned_share, limits.part)]
    wrong = _beyond(whole, limits.whole if report.solid_fed_share is not None else limits.part)
    if not wrong and not odd:
        return None
    if wrong:
        line, share, where = report.motion_fed_share, whole, "its solid layers"
    else:
        far = max(odd, key=lambda window: abs(window.planned_share - 1.0))
        line, share, where = (
            far.motion_share,
            far.planned_share,
            f"its layers from {far.low_mm:.2f} to {far.high_mm:.2f} mm",
        )
    fed = _beyond(line, limits.line)
    return motion_finding(
        "program.fed" if fed else "program.fill",
        wrong=True,
        part=copy.part,
        measured=100.0 * share,
        limit=100.0,
        unit="%",
        why=(
            f"{copy.part}: {where} get {100 * share:.0f} % of the filament that fills them; "
            + (f"lines get {100 * line:.0f} % of what their width needs" if fed else "lines are missing or too many")
        ),
        remedy="set filament diameter and flow to 100 %" if fed else "set fill and contours as planned",
    )


def _fed_well(copies: Sequence[Copy], limits: FedLimits) -> list[Finding]:
    """Say how much filament the solid layers get, where nothing is wrong with it; a caution where lines differ."""
    known = [copy.report for copy in copies if copy.report is not None]
    if not known or any(_feed(copy, limits) for copy in copies):
        return []
    shares = [one.solid_fed_share for one in known if one.solid_fed_share is not None]
    line = sum(one.motion_fed_share for one in known) / len(known)
    said = f"lines get {100 * line:.0f} % of what their planned width needs"
    if shares:
        said = f"solid layers get {100 * sum(shares) / len(shares):.0f} % of the filament that fills them; {said}"
    return [
        motion_finding(
            "program.fed",
            wrong=False,
            measured=100.0 * line,
            limit=100.0,
            unit="%",
            why=said,
            caution="Lines are not as wide as planned." if _beyond(line, limits.line) else "",
        )
    ]
