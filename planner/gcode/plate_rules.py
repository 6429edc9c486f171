"""Rules about a whole plate: copies that are missing, pieces that are too many, pieces that are mirrored."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from planner.finding import Finding
from planner.gcode.copies.size_rules import Copy
from planner.gcode.matching.match import Matching
from planner.gcode.program_finding import motion_finding


def plate_findings(found: Matching, copies: Sequence[Copy]) -> list[Finding]:
    """Return what is missing, too many or mirrored; where every copy is there, that."""
    findings = [*_sides(found), *_missing(found), *_extra(found)]
    if not found.missing and not found.extra:
        findings.append(_all_there(found, copies))
    return findings


def _all_there(found: Matching, copies: Sequence[Copy]) -> Finding:
    """Say that every copy was found, and how many layers of it were compared."""
    n, layers_n = len(found.matches), sum(copy.report.layers_n for copy in copies if copy.report)
    return motion_finding(
        "program.parts",
        wrong=False,
        measured=float(n),
        limit=float(n),
        unit="copies",
        why=f"all {n} copies of the plate are there; {layers_n} layers of them were compared with their sections",
    )


def _sides(found: Matching) -> list[Finding]:
    """Say which parts are mirrored."""
    names = Counter(match.part for match in found.matches if match.mirrored)
    return [
        motion_finding(
            "program.mirrored",
            wrong=True,
            part=name,
            measured=float(n),
            limit=0.0,
            unit="copies",
            why=f"{n} x {name} is mirrored against the plan: a left one for a right one",
            remedy="load the file that the plan wrote, and do not mirror it",
        )
        for name, n in names.items()
    ]


def _missing(found: Matching) -> list[Finding]:
    """Say which copies are missing."""
    return [
        motion_finding(
            "program.parts",
            wrong=True,
            part=name,
            measured=0.0,
            limit=float(n),
            unit="copies",
            why=f"{n} x {name} of the plate is not in the program, or not in its shape",
            remedy="load the plate's file again, whole",
        )
        for name, n in found.missing
    ]


def _extra(found: Matching) -> list[Finding]:
    """Say what is no part of the plate."""
    if not found.extra:
        return []
    n, tall = len(found.extra), max(island.top_mm for island in found.extra)
    return [
        motion_finding(
            "program.parts",
            wrong=True,
            measured=float(n),
            limit=0.0,
            unit="islands",
            why=f"{n} pieces in the program are no part of the plate, the tallest {tall:.1f} mm high",
            remedy="print the plate's parts only",
        )
    ]
