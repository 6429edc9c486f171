"""What ``strength`` answers, as plain JSON types: the words of the contract."""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Finding, worst
from planner.output.json.plan_json import Json, finding_json
from planner.strength import Screened


def strength_json(percent: float, load_n: float | None, parts: Sequence[tuple[Screened, Finding]]) -> Json:
    """Return every loaded part under the loads that are worst for it, with what the rules say at size.

    A part that could not be screened has nulls and says why. ``stress_mpa`` is the greatest principal stress at size;
    places are those of the drawn mesh.
    """
    by_part: dict[str, tuple[Screened, Finding]] = {}
    for one, finding in parts:
        before = by_part.get(one.part)
        if before is None or (finding.measured or 0.0) > (before[1].measured or 0.0):
            by_part[one.part] = one, finding
    return {
        "schema": "fitwright/strength/1",
        "scale_percent": percent,
        "verdict": worst(finding for _, finding in parts).value,
        "stated_n": load_n,
        "parts": [_part(one, finding) for one, finding in by_part.values()],
        "findings": [finding_json(finding) for _, finding in parts],
    }


def _part(one: Screened, finding: Finding) -> Json:
    """Return one part; beams have no unknowns and need no refining."""
    weak, strength = one.weakest, None
    if weak is not None and one.material is not None:
        along = weak.direction == "along"
        sourced = one.material.strength_along_mpa if along else one.material.strength_across_layers_mpa
        strength = {"low": sourced.low, "expected": sourced.value}
    return {
        "part": one.part,
        "method": "beam",
        "known": one.known,
        "loads": None if one.case is None else one.case.said,
        "load_n": None if one.case is None else list(one.case.force_n),
        "weakest_mm": None if weak is None else list(weak.at_mm),
        "stress_mpa": None if weak is None or finding.measured is None else weak.stress_at_mpa(finding.measured),
        "strength_mpa": strength,
        "share_percent": finding.measured,
        "direction": None if weak is None else weak.direction,
        "unknowns_n": 0,
        "seconds": None,
        "converged_percent": None,
        "unknown": one.unknown,
        "remedies": [finding.remedy] if finding.remedy else [],
    }
