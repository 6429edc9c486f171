"""The parts as the page's own script draws them: meshes as they stand on the bed, walls, what is held up, bores."""

from __future__ import annotations

import base64
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from planner.job import kind_of
from planner.layers import PartEstimate, held_faces
from planner.output.strength_view.loaded_json import loaded_json
from planner.output.strength_view.loaded_part import loaded_parts
from planner.plan import Plan, PlannedPart
from planner.survey import Bore

Json = dict[str, object]
BUDGET_BYTES = 3_500_000
"""All meshes of a page together before base64; the page must stay under 8 MB."""
GRID = 65_535
"""Steps of a coordinate across a part's box: at most 0.01 mm on parts up to 600 mm."""
WALL_STEP_MM = 0.04
"""Step of a wall's thickness as drawn in one byte; 0 stands for no wall, 255 for 10.2 mm and more."""


def bodies_json(plan: Plan) -> list[Json]:
    """Return every part as plain JSON; ``mesh`` null and a reason in ``left_out`` where the page would grow too large.

    Small parts come first into the budget. Lengths are in mm at the planned size, in the pose on the bed.
    """
    left = BUDGET_BYTES
    whole: set[str] = set()
    for part in sorted(plan.parts, key=_bytes_n):
        left -= _bytes_n(part)
        if left >= 0:
            whole.add(part.part.name)
    return [_body(plan, part, whole=part.part.name in whole) for part in plan.parts]


def _bytes_n(part: PlannedPart) -> int:
    """Return the bytes that a part's mesh takes."""
    wide = 2 if len(part.posed.vertices_mm) <= GRID else 4
    return 6 * len(part.posed.vertices_mm) + (3 * wide + 2) * len(part.posed.faces)


def _body(plan: Plan, part: PlannedPart, *, whole: bool) -> Json:
    """Return one part."""
    even = len(set(part.scale_percent)) == 1
    least = part.survey.walls.least_clear
    claimed = _claimed(plan, part.part.name)
    loaded = next((one for one in loaded_parts(plan) if one.name == part.part.name), None)
    return {
        "name": part.part.name,
        "size_mm": [float(side) for side in part.posed.size_mm],
        "follows": part.part.scale_percent is None,
        "sound": part.survey.sound,
        "line_mm": plan.job.settings.line_width_mm.value,
        "mesh": _mesh(plan, part, even=even) if whole else None,
        "left_out": "" if whole else f"its {part.posed.triangles_n} triangles would make this page too large",
        "support": support_words(part.estimate, laid=plan.job.settings.support != "none"),
        "wall_limit_mm": next(
            (f.limit for f in plan.findings if kind_of(f.rule).gives == "least wall" and f.part == part.part.name), None
        ),
        "thinnest": None
        if least is None or not even
        else {"mm": least.thickness_mm * part.scale_percent[0] / 100.0, "at": _placed(part, [least.at_mm])[0]},
        "loaded": None if loaded is None else loaded_json(loaded),
        "bores": [_bore(part, bore, claimed.get(bore.id, "")) for bore in part.survey.bores] if even else [],
    }


def support_words(estimate: PartEstimate | None, *, laid: bool) -> str:
    """Say how much of a part needs support, and in which openings; ``laid`` is False where support is off."""
    if estimate is None:
        return "layers were not computed, so it is not known what needs support"
    span = f"; its longest bridge spans {estimate.bridge_span_mm:.1f} mm" if estimate.bridge_span_mm > 0 else ""
    if not estimate.needs_support:
        return f"needs no support{span}"
    inside = ", ".join(estimate.support_inside_mm3)
    return (
        f"{estimate.supported_mm2:.0f} mm² of its faces "
        + (f"lie on support, {estimate.support_mm3 / 1000:.1f} cm³ per copy" if laid else "need support, which is off")
        + (f", also inside {inside}" if inside else "")
        + span
    )


def _claimed(plan: Plan, name: str) -> dict[str, str]:
    """Return the hardware in each bore of a part, by the findings that speak of it (``"screw in b2 (3.20 mm)"``)."""
    found: dict[str, str] = {}
    for finding in plan.findings:
        hardware, between, rest = finding.feature.rpartition(" in ")
        if finding.part == name and between and rest:
            found.setdefault(rest.split(" ")[0], hardware)
    return found


def _mesh(plan: Plan, part: PlannedPart, *, even: bool) -> Json:
    """Return vertices on a grid over the box, faces, the wall of every face and what holds it up, each as base64."""
    solid = part.posed
    low, high = solid.bounds_mm
    step = np.maximum(high - low, 1e-9) / GRID
    grid = np.round((solid.vertices_mm - low) / step).astype("<u2")
    faces = solid.faces.astype("<u2" if len(grid) <= GRID else "<u4")
    walls = part.survey.walls.of_face_mm if even else np.full(len(faces), np.nan)
    levels = np.where(np.isnan(walls), 0.0, np.clip(np.nan_to_num(walls) / WALL_STEP_MM, 1.0, 255.0))
    return {
        "low": low.tolist(),
        "step": step.tolist(),
        "vertices": _base64(grid),
        "faces": _base64(faces),
        "wide": faces.dtype.itemsize,
        "walls": _base64(np.round(levels).astype("u1")),
        "held": _base64(held_faces(solid, plan.job.settings)),
        "wall_step_mm": WALL_STEP_MM * part.scale_percent[0] / 100.0,
    }


def _bore(part: PlannedPart, bore: Bore, hardware: str) -> Json:
    """Return one bore as it stands on the bed."""
    factor = part.scale_percent[0] / 100.0
    half = np.array(bore.axis) * bore.depth_mm / 2
    ends = [np.array(bore.centre_mm) - half, np.array(bore.centre_mm) + half]
    return {
        "id": bore.id,
        "drawn_mm": bore.drawn_diameter_mm,
        "mm": bore.drawn_diameter_mm * factor,
        "deep_mm": bore.depth_mm * factor,
        "through": bore.through,
        "ends": _placed(part, ends),
        "hardware": hardware,
    }


def _placed(part: PlannedPart, points: Sequence[Sequence[float] | NDArray[np.float64]]) -> list[list[float]]:
    """Return drawn points where they stand on the bed, as plain numbers."""
    return [[round(float(value), 3) for value in point] for point in part.on_bed(np.asarray(points))]


def _base64(values: NDArray[np.generic]) -> str:
    """Return an array's bytes as text."""
    return base64.b64encode(np.ascontiguousarray(values).tobytes()).decode()
