"""Rules about the meshes themselves: sound, in the right unit, unchanged, and all at one size."""

from __future__ import annotations

import re
from collections.abc import Mapping

import numpy as np

from planner.finding import Finding, Verdict
from planner.job import Job, Part
from planner.phrases import plural
from planner.rules.fit.mesh_units import mesh_hold, unit_findings
from planner.survey import Survey

SIZE_IN_NAME = re.compile(r"-(\d{2,3}(?:\.\d+)?)pc(?:-|$)")
"""Our own files at size say so in their names."""
ALIKE = 2e-3
"""Shapes whose scale-free measures agree within 0.2 % are the same shape."""


def mesh_findings(job: Job, surveys: Mapping[str, Survey]) -> list[Finding]:
    """Return the findings about all meshes of a job."""
    found = [finding for part in job.parts for finding in _of_part(part, surveys[part.name])]
    return found + unit_findings(job, surveys) + _mixed(job, surveys)


def _of_part(part: Part, survey: Survey) -> list[Finding]:
    """Judge one mesh by itself."""
    found = []
    if survey.faults:
        why = f"{part.mesh.name} is not sound: " + ", ".join(survey.faults)
        found.append(mesh_hold("mesh.open", part.name, why, "repair the mesh; grams are withheld", "mesh"))
    if survey.unit_doubt:
        found.append(mesh_hold("mesh.unit", part.name, survey.unit_doubt, "state [job] mesh_unit", "unit"))
    if part.sha256 and part.sha256.lower() != survey.sha256.lower():
        why = f"{part.mesh.name} is not the file that the job was written for (its SHA-256 differs)"
        found.append(mesh_hold("mesh.changed", part.name, why, "check the new file, then write its sha256", "file"))
    size = SIZE_IN_NAME.search(part.mesh.stem)
    if size and float(size[1]) != 100.0:
        why = f"{part.mesh.name} says that it is already at {size[1]} %: it would be scaled twice"
        found.append(mesh_hold("mesh.sized", part.name, why, "use the mesh as drawn, or scale = 100.0 for it", "file"))
    if survey.unrecognised_n:
        found.append(_unrecognised(part.name, survey))
    if survey.bodies_n > 1:
        found.append(_bodies(part, survey.bodies_n))
    return found


def _bodies(part: Part, bodies_n: int) -> Finding:
    """Say that a mesh holds several bodies, which count as one part."""
    return Finding(
        rule="mesh.bodies",
        part=part.name,
        feature=plural(bodies_n, "body"),
        verdict=Verdict.GO,
        measured=float(bodies_n),
        why=f"{part.mesh.name} holds {bodies_n} bodies that do not touch; they count as one part",
        source="connected faces of the mesh",
        caution="Where they are parts of their own, save each as a mesh of its own: only then is judged how they meet.",
    )


def _unrecognised(part: str, survey: Survey) -> Finding:
    """Say that more openings go through a part than were recognised."""
    n, handles_n = survey.unrecognised_n, survey.handles_n or 0
    return Finding(
        rule="mesh.openings",
        part=part,
        feature=plural(n, "opening"),
        verdict=Verdict.GO,
        measured=float(n),
        why=f"openings through {part}, by its topology: {handles_n}; recognised as bores, slots or channels: "
        f"{handles_n - n}",
        source="genus of the mesh (Euler's formula) against the survey",
        caution="listed only: look at them, because what goes through them is not checked",
    )


def _mixed(job: Job, surveys: Mapping[str, Survey]) -> list[Finding]:
    """Find the same shape drawn at two sizes: usually one of them was scaled already."""
    found = []
    parts = [part for part in job.parts if surveys[part.name].sound and surveys[part.name].triangles_n > 12]
    for index, one in enumerate(parts):
        for other in parts[index + 1 :]:
            ratio = _same_shape(surveys[one.name], surveys[other.name])
            if ratio is not None and abs(ratio - 1.0) > ALIKE:
                why = f"{other.name} is {one.name} at {100 * ratio:.1f} %: two sizes are mixed"
                remedy = "leave out the one that was scaled already"
                found.append(
                    mesh_hold("size.mixed", other.name, why, remedy, "file", f"Which size of {one.name} is meant?")
                )
    return found


def _same_shape(one: Survey, other: Survey) -> float | None:
    """Return by what the other is larger where both are the same shape, mirrored or not; else None."""
    if one.triangles_n != other.triangles_n:
        return None
    ratio = (abs(other.volume_mm3) / max(abs(one.volume_mm3), 1e-9)) ** (1 / 3)
    if abs(other.area_mm2 / one.area_mm2 / ratio**2 - 1) >= ALIKE:
        return None
    return float(ratio) if np.allclose(np.sort(one.size_mm) * ratio, np.sort(other.size_mm), rtol=ALIKE) else None
