"""What ``pattern`` answers, as plain JSON types."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from planner.finding import worst
from planner.output.json.plan_json import Json, finding_json
from planner.output.pattern.pattern_files import PatternFiles
from planner.output.pattern.pattern_words import BUCK_CAUTION
from planner.pattern import Pattern
from planner.plan import PaddingPatterns


def pattern_json(found: PaddingPatterns, pdf: Path, files: Sequence[PatternFiles]) -> Json:
    """Return every pattern with its measures, its files and all findings; lengths in mm at size."""
    return {
        "schema": "fitwright/pattern/1",
        "scale_percent": found.percent,
        "verdict": worst(found.findings).value,
        "pdf": str(pdf),
        "caution": BUCK_CAUTION,
        "patterns": [_pattern(one, each) for one, each in zip(found.patterns, files, strict=True)],
        "findings": [finding_json(finding) for finding in found.findings],
    }


def _pattern(one: Pattern, files: PatternFiles) -> Json:
    """Return one pattern; what could not be made is null."""
    flat = one.flat
    told: Json = {
        "part": one.part,
        "thickness_mm": one.thick_mm,
        "ease_mm": one.ease_mm,
        "found_by": one.found_by,
        "method": flat and flat.method,
        "size_mm": flat and list(flat.size_mm),
        "area_mm2": flat and flat.area_mm2,
        "stretch_percent": flat and flat.stretch_percent,
        "stretch_without_darts_percent": flat and flat.bare_percent,
        "darts_mm": flat and [[list(map(list, one.left)), list(map(list, one.right))] for one in flat.darts],
        "edges_off_mm": flat and flat.edge_mm,
        "radius_mm": flat and flat.radius_mm,
        "half_angle_deg": flat and flat.half_deg,
        "outline_mm": flat and [[list(point) for point in ring] for ring in flat.rings],
        "marks_mm": flat and [list(point) for point in flat.marks],
        "buck_size_mm": None if one.buck is None else list(one.buck.size_mm),
        "no_buck": one.no_buck,
        "bed_too_small": one.bed_too_small,
    }
    return {**told, **{key: None if path is None else str(path) for key, path in _files(files).items()}}


def _files(files: PatternFiles) -> dict[str, Path | None]:
    """Return the files of a pattern by name."""
    return {"svg": files.svg, "dxf": files.dxf, "buck": files.buck}
