"""What ``strength`` answers, as plain JSON types: the words of the contract."""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Finding, worst
from planner.output.json.plan_json import Json, finding_json
from planner.output.words.strength_words import difference_words
from planner.rules import Lasting
from planner.strength import ByElements, Screened


def strength_json(
    percent: float,
    load_n: float | None,
    parts: Sequence[tuple[Screened, Finding]],
    lasting: Sequence[Lasting] = (),
) -> Json:
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
        "lasting": [
            {"what": one.name, "left_share": one.share, "source": one.source, "stated": one.stated} for one in lasting
        ],
        "parts": [_part(one, finding) for one, finding in by_part.values()],
        "findings": [finding_json(finding) for _, finding in parts],
    }


def _part(one: Screened, finding: Finding) -> Json:
    """Return one part, by what counts of both; beams have no unknowns and need no refining."""
    by = one.elements
    beam, elements = _beam(one, finding), None if by is None else _elements(by)
    counts = elements if by is not None and by.ratio > 1.0 else beam
    told = counts or dict.fromkeys(("weakest_mm", "stress_mpa", "direction"))
    return {
        "part": one.part,
        "method": "beam" if counts is beam else "elements",
        "known": one.known,
        "loads": None if one.case is None else one.case.said,
        "load_n": None if one.case is None else list(one.case.force_n),
        "weakest_mm": told["weakest_mm"],
        "stress_mpa": told["stress_mpa"],
        "strength_mpa": _strength(one, told["direction"]),
        "share_percent": finding.measured,
        "direction": told["direction"],
        "unknowns_n": by.unknowns_n if by else 0,
        "seconds": by.seconds if by else None,
        "converged_percent": by.converged_percent if by and not by.unknown else None,
        "beam": beam,
        "elements": elements,
        "difference": difference_words(by) if by else "",
        "unknown": one.unknown or (one.odd if finding.measured is None and one.odd else None),
        "remedies": [finding.remedy] if finding.remedy else [],
    }


def _strength(one: Screened, direction: object) -> Json | None:
    """Return the material's strength in the direction in which it is torn; None where that is not known."""
    if direction is None or one.material is None:
        return None
    sourced = one.material.strength_along_mpa if direction == "along" else one.material.strength_across_layers_mpa
    return {"low": sourced.low, "expected": sourced.value}


def _beam(one: Screened, finding: Finding) -> Json | None:
    """Return what the beam pass says; None where it could not be asked."""
    weak = one.weakest
    if weak is None or finding.measured is None:
        return None
    share_percent = finding.measured if one.elements is None else finding.measured / one.elements.ratio
    return {
        "share_percent": share_percent,
        "weakest_mm": list(weak.at_mm),
        "stress_mpa": weak.stress_at_mpa(share_percent),
        "direction": weak.direction,
    }


def _elements(by: ByElements) -> Json:
    """Return what finite elements say; nulls where they gave no answer."""
    told = not by.unknown
    return {
        "share_percent": by.share_percent if told else None,
        "weakest_mm": list(by.at_mm) if told else None,
        "also_mm": [list(at) for at in by.also_mm],
        "stress_mpa": by.stress_mpa if told else None,
        "direction": by.direction if told else None,
        "settles": by.stands,
        "loads": by.case_said,
        "unknown": by.unknown,
    }
