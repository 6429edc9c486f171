"""What ``inspect`` and ``settings`` found, as plain JSON types."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from pathlib import Path

from planner.finding import Finding, Verdict, worst
from planner.output.json.plan_json import Json, finding_json
from planner.rules import Change
from planner.survey import Bore, Pose, Survey, largest_factor, shadow_mm

LIMITS_MM = (0.45, 0.9, 1.35)
"""One, two and three lines of 0.45 mm."""


def inspect_json(surveys: Sequence[tuple[Path, Survey]], doubts: Sequence[str]) -> Json:
    """Return the measures of meshes."""
    return {
        "schema": "fitwright/inspect/1",
        "doubts": list(doubts),
        "meshes": [_mesh_json(path, survey) for path, survey in surveys],
    }


def _mesh_json(path: Path, survey: Survey) -> Json:
    """Return one mesh."""
    least = survey.walls.least
    return {
        "file": str(path),
        "sha256": survey.sha256,
        "triangles": survey.triangles_n,
        "bodies": survey.bodies_n,
        "watertight": survey.sound,
        "healed": list(survey.healed),
        "faults": list(survey.faults),
        "unit": survey.unit,
        "unit_doubt": survey.unit_doubt,
        "size_mm": list(survey.size_mm),
        "volume_mm3": survey.volume_mm3,
        "area_mm2": survey.area_mm2,
        "walls": {
            "least_mm": least.thickness_mm if least else None,
            "at_mm": list(least.at_mm) if least else None,
            "area_below_mm2": {f"{limit:g}": survey.walls.area_below_mm2(limit) for limit in LIMITS_MM},
            "places": [asdict(place) for place in survey.walls.places],
            "run_outs": [asdict(edge) for edge in survey.walls.run_outs],
        },
        "bores": [_bore_json(bore) for bore in survey.bores],
        "possible_bores": [_bore_json(bore) for bore in survey.possible_bores],
        "pegs": [asdict(peg) for peg in survey.pegs],
        "poses": [
            {
                "down": list(pose.down),
                "height_mm": pose.height_mm,
                "contact_mm2": pose.contact_mm2,
                "tip_deg": pose.tip_deg,
                "overhang_mm2": pose.overhang_mm2,
                "least_square_bed_mm": _least_square_bed_mm(survey, pose),
            }
            for pose in survey.poses
        ],
        "slots": [{"width_mm": s.width_mm, "length_mm": s.length_mm, "at_mm": list(s.at_mm)} for s in survey.slots],
        "handles": survey.handles_n,
        "openings_unrecognised": survey.unrecognised_n,
        "channels": [
            {
                "diameter_mm": channel.diameter_mm,
                "length_mm": channel.length_mm,
                "bends_deg": channel.bends_deg,
                "centre_line_mm": [list(point) for point in channel.line_mm],
            }
            for channel in survey.channels
        ],
    }


def _least_square_bed_mm(survey: Survey, pose: Pose) -> float:
    """Return the side of the smallest square bed that takes a pose turned to fit best."""
    outline, _ = shadow_mm(survey.hull_mm, pose.down)
    return 1.0 / largest_factor(outline, 1.0, 1.0)[0]


def _bore_json(bore: Bore) -> Json:
    """Return one bore."""
    return {
        "id": bore.id,
        "diameter_mm": bore.diameter_mm,
        "drawn_diameter_mm": bore.drawn_diameter_mm,
        "facets_n": bore.facets_n,
        "depth_mm": bore.depth_mm,
        "axis": list(bore.axis),
        "centre_mm": list(bore.centre_mm),
        "through": bore.through,
        "step_of": bore.step_of,
        "coverage_deg": bore.coverage_deg,
        "countersink_mm": bore.countersink_mm,
        "edge_wall_mm": bore.edge_wall_mm,
        "groove_pitch_mm": bore.groove_pitch_mm,
    }


def settings_json(
    findings: Sequence[Finding],
    changes: Sequence[Change],
    after: Verdict,
    *,
    printers: Sequence[str],
    aside: Mapping[str, str],
) -> Json:
    """Return the result of ``settings``; ``changes`` are the smallest that help, ``after`` the verdict with them.

    ``printers`` were asked, ``aside`` tells why others were not.
    """
    return {
        "schema": "fitwright/settings/1",
        "verdict": worst(findings).value,
        "findings": [finding_json(finding) for finding in findings],
        "changes": [asdict(change) for change in changes],
        "printers": list(printers),
        "aside": dict(aside),
        "verdict_with_changes": after.value,
    }
