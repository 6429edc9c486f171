"""The audit: what a program does, compared with what the plan means; every difference is a finding by rule."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import numpy as np

from planner.finding import Finding
from planner.gcode.compared import FROM_MOTION, told
from planner.gcode.expected import Meant
from planner.gcode.islands import islands_of
from planner.gcode.machine_rules import machine_findings
from planner.gcode.match import Match, Matching, matching
from planner.gcode.measure_program import Measured
from planner.rules import by_severity

SIZE_PERCENT = 1.5
"""A part is at another scale beyond this, across and in height; less is the raster's."""
UNITS = (
    (25.4, "inches taken for mm"),
    (1 / 25.4, "mm taken for inches"),
    (10.0, "cm taken for mm"),
    (0.1, "mm taken for cm"),
)
UNIT_SLACK = 0.04


@dataclass(frozen=True, slots=True, kw_only=True)
class Audit:
    """The findings, worst first, and what was matched."""

    findings: tuple[Finding, ...]
    matching: Matching


def audit(measured: Measured, meant: Meant) -> Audit:
    """Compare a measured program with a plate of the plan."""
    settings = meant.settings
    width, share = settings.line_width_mm.value, max(settings.infill_percent.value / 100.0, 0.05)
    layer = settings.layer_height_mm.value
    found = matching(
        islands_of(measured.laid, layer),
        meant.parts,
        measured.laid,
        line_width_mm=width,
        gap_mm=1.2 * width / share,
    )
    layer_slack = {part.name: 1.5 * layer / part.solid.size_mm[2] for part in meant.parts}
    findings = [
        *_sizes(found, layer_slack),
        *_sides(found),
        *(_counts(found) or [_all_there(found)]),
        *machine_findings(measured, meant),
    ]
    return Audit(findings=by_severity(findings), matching=found)


def _all_there(found: Matching) -> Finding:
    """Say that every copy was found."""
    n = len(found.matches)
    least = min((match.alike for match in found.matches), default=0.0)
    return told(
        "program.parts",
        wrong=False,
        measured=float(n),
        limit=float(n),
        unit="copies",
        why=f"all {n} copies of the plate are there, the least alike by {100 * least:.0f} % of its area",
        source=FROM_MOTION,
    )


def _off(match: Match, slack: float) -> bool:
    """Return whether a matched part is at another size, across and in height alike."""
    across, upward = abs(match.across - 1.0), abs(match.upward - 1.0)
    far = across > SIZE_PERCENT / 100.0 and upward > min(SIZE_PERCENT / 100.0, slack)
    return far and abs(match.across / match.upward - 1.0) < 0.02 + slack


def _sizes(found: Matching, slack: dict[str, float]) -> list[Finding]:
    """Say which parts are at another scale, as a unit mistake where it is one."""
    off = [match for match in found.matches if _off(match, slack[match.part])]
    if not off:
        return []
    factor = float(np.median([match.across for match in off]))
    names = ", ".join(f"{n} x {name}" for name, n in Counter(match.part for match in off).items())
    unit = next((mistake for value, mistake in UNITS if abs(factor / value - 1.0) < UNIT_SLACK), "")
    return [
        told(
            "program.unit" if unit else "program.scale",
            wrong=True,
            part=off[0].part,
            measured=100.0 * factor,
            limit=100.0,
            unit="%",
            why=f"{names} print at {100 * factor:.1f} % of the planned size" + (f" ({unit})" if unit else ""),
            remedy="the parts are written at size: load them without scaling, in mm",
            source=FROM_MOTION,
        )
    ]


def _sides(found: Matching) -> list[Finding]:
    """Say which parts are mirrored."""
    names = Counter(match.part for match in found.matches if match.mirrored)
    return [
        told(
            "program.mirrored",
            wrong=True,
            part=name,
            measured=float(n),
            limit=0.0,
            unit="copies",
            why=f"{n} x {name} is mirrored against the plan: a left one for a right one",
            remedy="load the file that the plan wrote, and do not mirror it",
            source=FROM_MOTION,
        )
        for name, n in names.items()
    ]


def _counts(found: Matching) -> list[Finding]:
    """Say what is missing and what is too many."""
    findings = [
        told(
            "program.parts",
            wrong=True,
            part=name,
            measured=0.0,
            limit=float(n),
            unit="copies",
            why=f"{n} x {name} of the plate is not in the program, or not in its shape",
            remedy="load the plate's file again, whole",
            source=FROM_MOTION,
        )
        for name, n in found.missing
    ]
    if found.extra:
        n, tall = len(found.extra), max(island.top_mm for island in found.extra)
        findings.append(
            told(
                "program.parts",
                wrong=True,
                measured=float(n),
                limit=0.0,
                unit="islands",
                why=f"{n} islands of the program are no part of the plate, the tallest {tall:.1f} mm high",
                remedy="print the plate's parts only",
                source=FROM_MOTION,
            )
        )
    return findings
