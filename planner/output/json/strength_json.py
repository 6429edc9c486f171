"""What ``strength`` answers, as plain JSON types: the words of the contract."""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Finding, worst
from planner.output.json.plan_json import Json, finding_json
from planner.output.words.strength_words import difference_words
from planner.strength import ByElements, Screened


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
    """Return one part, by what counts of both; beams have no unknowns and need no refining."""
    weak, strength, by = one.weakest, None, one.elements
    counts = None if by is None or by.ratio <= 1.0 else by
    direction = counts.direction if counts else weak and weak.direction
    if direction is not None and one.material is not None:
        along = direction == "along"
        sourced = one.material.strength_along_mpa if along else one.material.strength_across_layers_mpa
        strength = {"low": sourced.low, "expected": sourced.value}
    beam: Json | None = None
    if weak is not None and finding.measured is not None:
        share = finding.measured if by is None else finding.measured / by.ratio
        beam = {
            "share_percent": share,
            "weakest_mm": list(weak.at_mm),
            "stress_mpa": weak.stress_at_mpa(share),
            "direction": weak.direction,
        }
    return {
        "part": one.part,
        "method": "elements" if counts else "beam",
        "known": one.known,
        "loads": None if one.case is None else one.case.said,
        "load_n": None if one.case is None else list(one.case.force_n),
        "weakest_mm": list(counts.at_mm) if counts else None if weak is None else list(weak.at_mm),
        "stress_mpa": counts.stress_mpa if counts else beam and beam["stress_mpa"],
        "strength_mpa": strength,
        "share_percent": finding.measured,
        "direction": direction,
        "unknowns_n": by.unknowns_n if by else 0,
        "seconds": by.seconds if by else None,
        "converged_percent": by.converged_percent if by and not by.unknown else None,
        "beam": beam,
        "elements": None if by is None else _elements(by),
        "difference": "" if by is None else difference_words(by),
        "unknown": one.unknown,
        "remedies": [finding.remedy] if finding.remedy else [],
    }


def _elements(by: ByElements) -> Json:
    """Return what finite elements say; nulls where they gave no answer."""
    told = not by.unknown
    return {
        "share_percent": by.share_percent if told else None,
        "weakest_mm": list(by.at_mm) if told else None,
        "stress_mpa": by.stress_mpa if told else None,
        "direction": by.direction if told else None,
        "settles": by.stands,
        "unknown": by.unknown,
    }
