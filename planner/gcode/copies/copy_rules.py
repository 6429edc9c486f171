"""Rules about single copies: size, height, what lies outside, what is left open, and filament."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from planner.finding import Finding
from planner.gcode.compared import FROM_MOTION, told
from planner.gcode.copies.copy_compare import CopyReport
from planner.gcode.copies.differences import Difference
from planner.gcode.matching.match import Match
from planner.job import Settings
from planner.mesh import Solid

SIZE_MM, SIZE_SHARE = 0.25, 0.004
"""A side that is longer or shorter by more than both is of another size: 1 % of a side of 40 mm is 0.4 mm."""
ALIKE_SHARE = 0.01
"""Sizes along x and y that differ by less are one size."""
UNDER_LAYERS, OVER_LAYERS = 0.55, 1.05
"""The last layer ends at most this far under or over the part's top: layers are cut at their middle or their top."""
UNITS = (
    (25.4, "inches taken for mm"),
    (1 / 25.4, "mm taken for inches"),
    (10.0, "cm taken for mm"),
    (0.1, "mm taken for cm"),
)
UNIT_SLACK = 0.04
WHOLE_FED, PART_FED = (0.9, 1.12), (0.85, 1.2)
"""Filament over what fills: of all solid layers, and of a few layers anywhere; common practice, no source."""
LINE_FED = (0.92, 1.1)
"""Filament over what beads of the planned width take, within which the lines are fed as planned."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Copy:
    """One copy with its match, the part's solid, and its report; None where the size alone tells enough."""

    match: Match
    report: CopyReport | None
    solid: Solid

    @property
    def part(self) -> str:
        """Name of the part."""
        return self.match.part

    @property
    def stretch(self) -> tuple[float, float]:
        """Size over the planned one along x and y."""
        return (self.report.fit.stretch_x, self.report.fit.stretch_y) if self.report else (self.match.across,) * 2

    @property
    def tall_mm(self) -> float:
        """Height of the piece, from where it would stand."""
        if self.report is None:
            return self.match.upward * self.solid.size_mm[2]
        return self.report.top_mm - self.report.fit.pose.z_offset_mm

    def as_measured(self) -> Match:
        """Return the match with its exact sizes."""
        x, y = self.stretch
        mirrored = self.report.fit.pose.mirrored if self.report else self.match.mirrored
        upward = self.tall_mm / self.solid.size_mm[2]
        return replace(self.match, across=(x * y) ** 0.5, upward=upward, mirrored=mirrored)


def copy_findings(copies: Sequence[Copy], settings: Settings) -> list[Finding]:
    """Return the findings about all copies; equal copies share a finding, and the worst gives its numbers."""
    layer = settings.layer_height_mm.value
    first = settings.first_layer_height_mm.value
    return [
        *_gathered(copies, lambda copy: _size(copy, layer)),
        *_gathered(copies, lambda copy: _height(copy, layer)),
        *_gathered(copies, lambda copy: _air(copy, first, layer)),
        *_gathered(copies, _gaps),
        *_gathered(copies, _outside),
        *_gathered(copies, _lacks),
        *_gathered(copies, _feed),
        *_fed_well(copies),
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


def _off(copy: Copy) -> bool:
    """Return whether a copy is of another size from above."""
    x, y, _ = copy.solid.size_mm
    return any(
        abs(factor - 1.0) * side > max(SIZE_MM, SIZE_SHARE * side)
        for factor, side in zip(copy.stretch, (x, y), strict=True)
    )


def _even(copy: Copy, layer_mm: float) -> bool:
    """Return whether a copy has one and the same other size in all three directions."""
    x, y = copy.stretch
    middle = (x * y) ** 0.5
    over = copy.tall_mm - middle * copy.solid.size_mm[2]
    slack = layer_mm * max(middle, 1.0)
    return abs(x / y - 1.0) < ALIKE_SHARE and -UNDER_LAYERS * slack < over < OVER_LAYERS * slack


def _size(copy: Copy, layer_mm: float) -> Finding | None:
    """Say that a copy is of another scale or unit, or stretched."""
    if not _off(copy):
        return None
    x, y = copy.stretch
    factor = (x * y) ** 0.5
    unit = next((mistake for value, mistake in UNITS if abs(factor / value - 1.0) < UNIT_SLACK), "")
    if unit or _even(copy, layer_mm):
        said = f"{copy.part} prints at {100 * factor:.1f} % of the planned size" + (f" ({unit})" if unit else "")
        return told(
            "program.unit" if unit else "program.scale",
            wrong=True,
            part=copy.part,
            measured=100.0 * factor,
            limit=100.0,
            unit="%",
            why=said,
            remedy="the parts are written at size: load them without scaling, in mm",
            source=FROM_MOTION,
        )
    worse = max(x, y, key=lambda value: abs(value - 1.0))
    upward = copy.tall_mm / copy.solid.size_mm[2]
    return told(
        "program.stretch",
        wrong=True,
        part=copy.part,
        measured=100.0 * worse,
        limit=100.0,
        unit="%",
        why=(
            f"{copy.part} is stretched: {100 * x:.1f} % of the planned size along its x, {100 * y:.1f} % along y, "
            f"{100 * upward:.1f} % in height"
        ),
        remedy="the parts are written at size: load them without scaling",
        source=FROM_MOTION,
    )


def _height(copy: Copy, layer_mm: float) -> Finding | None:
    """Say that a copy ends too early or too late."""
    planned = copy.solid.size_mm[2]
    least = min(copy.report.least_top_mm if copy.report else planned, planned) - UNDER_LAYERS * layer_mm
    high_enough = least <= copy.tall_mm <= planned + OVER_LAYERS * layer_mm
    if high_enough or (_off(copy) and _even(copy, layer_mm)):
        return None
    return told(
        "program.height",
        wrong=True,
        part=copy.part,
        measured=copy.tall_mm,
        limit=planned,
        unit="mm",
        why=(
            f"{copy.part} is {copy.tall_mm:.2f} mm high, planned {planned:.2f} mm "
            f"({100 * copy.tall_mm / planned:.0f} %)"
        ),
        remedy="make the program again from the plate's file, whole and unscaled",
        source=FROM_MOTION,
    )


def _air(copy: Copy, first_mm: float, layer_mm: float) -> Finding | None:
    """Say that a copy begins in mid-air."""
    if copy.report is None or copy.report.bottom_mm <= first_mm + 0.75 * layer_mm:
        return None
    return told(
        "program.air",
        wrong=True,
        part=copy.part,
        measured=copy.report.bottom_mm,
        limit=first_mm,
        unit="mm",
        why=f"{copy.part} begins in mid-air: its lowest lines lie at {copy.report.bottom_mm:.2f} mm",
        remedy="stand the part on the bed and make the program again",
        source=FROM_MOTION,
    )


def _gaps(copy: Copy) -> Finding | None:
    """Say where layers of a copy are missing."""
    if copy.report is None or not copy.report.gaps_mm:
        return None
    low, high = copy.report.gaps_mm[0]
    more = f", and in {len(copy.report.gaps_mm) - 1} more places" if len(copy.report.gaps_mm) > 1 else ""
    return told(
        "program.gap",
        wrong=True,
        part=copy.part,
        measured=high - low,
        limit=0.0,
        unit="mm",
        why=f"{copy.part}: nothing is laid between {low:.2f} and {high:.2f} mm{more}: layers are missing",
        remedy="make the program again from the plate's file",
        source=FROM_MOTION,
    )


def _place(where: Difference) -> str:
    """Say where a difference lies and how large it is."""
    return (
        f"{where.area_mm2:.1f} mm² over {where.size_mm[0]:.1f} x {where.size_mm[1]:.1f} mm, about x {where.at_mm[0]:.1f}, "
        f"y {where.at_mm[1]:.1f} in the pose, from {where.low_mm:.2f} to {where.high_mm:.2f} mm"
    )


def _outside(copy: Copy) -> Finding | None:
    """Say where a copy has plastic that the part has not."""
    if copy.report is None or not copy.report.over:
        return None
    n, worst = len(copy.report.over), copy.report.over[0]
    return told(
        "program.outside",
        wrong=True,
        part=copy.part,
        measured=sum(one.volume_mm3 for one in copy.report.over),
        limit=0.0,
        unit="mm3",
        why=f"{copy.part} has plastic where the part has none, in {n} places, the most: {_place(worst)}",
        remedy="load the plate's file again; a filled bore or slot comes from another version of the part",
        source=FROM_MOTION,
    )


def _lacks(copy: Copy) -> Finding | None:
    """Say where a copy leaves open what the part fills."""
    if copy.report is None or not copy.report.open:
        return None
    n, worst = len(copy.report.open), copy.report.open[0]
    return told(
        "program.lacks",
        wrong=True,
        part=copy.part,
        measured=sum(one.volume_mm3 for one in copy.report.open),
        limit=0.0,
        unit="mm3",
        why=f"{copy.part} is left open where the part has plastic, in {n} places, the most: {_place(worst)}",
        remedy="load the plate's file again; thin walls may have been left out",
        source=FROM_MOTION,
    )


def _beyond(value: float, limits: tuple[float, float]) -> bool:
    """Return whether a value lies outside its limits."""
    return not limits[0] <= value <= limits[1]


def _feed(copy: Copy) -> Finding | None:
    """Say that lines get too little or too much filament, or that lines are missing or too many."""
    report = copy.report
    if report is None:
        return None
    whole = report.motion_fed if report.solid_fed is None else report.solid_fed
    odd = [window for window in report.windows if _beyond(window.planned, PART_FED)]
    wrong = _beyond(whole, WHOLE_FED if report.solid_fed is not None else PART_FED)
    if not wrong and not odd:
        return None
    if wrong:
        line, share, where = report.motion_fed, whole, "its solid layers"
    else:
        far = max(odd, key=lambda window: abs(window.planned - 1.0))
        line, share, where = far.motion, far.planned, f"its layers from {far.low_mm:.2f} to {far.high_mm:.2f} mm"
    fed = _beyond(line, LINE_FED)
    return told(
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
        source=FROM_MOTION,
    )


def _fed_well(copies: Sequence[Copy]) -> list[Finding]:
    """Say how much filament the solid layers get, where nothing is wrong with it; a caution where lines differ."""
    known = [copy.report for copy in copies if copy.report is not None]
    if not known or any(_feed(copy) for copy in copies):
        return []
    shares = [one.solid_fed for one in known if one.solid_fed is not None]
    line = sum(one.motion_fed for one in known) / len(known)
    said = f"lines get {100 * line:.0f} % of what their planned width needs"
    if shares:
        said = f"solid layers get {100 * sum(shares) / len(shares):.0f} % of the filament that fills them; {said}"
    return [
        told(
            "program.fed",
            wrong=False,
            measured=100.0 * line,
            limit=100.0,
            unit="%",
            why=said,
            caution="Lines are not as wide as planned." if _beyond(line, LINE_FED) else "",
            source=FROM_MOTION,
        )
    ]
