"""Rules about the meshes themselves: sound, in the right unit, unchanged, and all at one size."""

from __future__ import annotations

import re
from collections.abc import Mapping

import numpy as np

from planner.finding import Finding, Verdict
from planner.job import Job, Part
from planner.survey import Survey

SIZE_IN_NAME = re.compile(r"-(\d{2,3}(?:\.\d+)?)pc(?:-|$)")
"""Our own files at size say so in their names."""
TINY_SHARE = 0.2
"""A part below this share of the least plausible device, 2 mm, is probably in another unit."""
ALIKE = 2e-3
"""Shapes whose scale-free measures agree within 0.2 % are the same shape."""


def mesh_findings(job: Job, surveys: Mapping[str, Survey]) -> list[Finding]:
    """Return the findings about all meshes of a job."""
    found = [finding for part in job.parts for finding in _of_part(part, surveys[part.name])]
    return found + _unit_of_device(job, surveys) + _units_apart(job, surveys) + _mixed(job, surveys)


def _of_part(part: Part, survey: Survey) -> list[Finding]:
    """Judge one mesh by itself."""
    found = []
    if survey.faults:
        why = f"{part.mesh.name} is not sound: " + ", ".join(survey.faults)
        found.append(_hold("mesh.open", part.name, why, "repair the mesh; grams are withheld", "mesh"))
    if survey.unit_doubt:
        found.append(_hold("mesh.unit", part.name, survey.unit_doubt, "state [job] mesh_unit", "unit"))
    if part.sha256 and part.sha256.lower() != survey.sha256.lower():
        why = f"{part.mesh.name} is not the file that the job was written for (its SHA-256 differs)"
        found.append(_hold("mesh.changed", part.name, why, "check the new file, then write its sha256", "file"))
    size = SIZE_IN_NAME.search(part.mesh.stem)
    if size and float(size[1]) != 100.0:
        why = f"{part.mesh.name} says that it is already at {size[1]} %: scaling it again would be twice"
        found.append(_hold("mesh.sized", part.name, why, "use the mesh as drawn, or scale = 100.0 for it", "file"))
    if survey.unrecognised_n:
        found.append(_unrecognised(part.name, survey))
    return found


def _unrecognised(part: str, survey: Survey) -> Finding:
    """Say that more openings go through a part than were recognised."""
    n = survey.unrecognised_n
    return Finding(
        rule="mesh.openings",
        part=part,
        feature=f"{n} openings",
        verdict=Verdict.GO,
        measured=float(n),
        why=f"{survey.handles_n} openings go through {part} by its topology, {n} of them are no bore, slot or channel "
        "that was recognised",
        source="genus of the mesh (Euler's formula) against the survey",
        caution="listed only: look at them, whatever goes through them is not checked",
    )


def _unit_of_device(job: Job, surveys: Mapping[str, Survey]) -> list[Finding]:
    """Judge whether the sizes of all parts together are plausible for their unit."""
    largest = max((max(survey.size_mm), survey.name) for survey in surveys.values())
    low, high = job.limits.unit_least_mm, job.limits.unit_most_mm
    if low.value <= largest[0] <= high.value:
        return []
    unit = surveys[largest[1]].unit
    guess = "inch, cm or m" if largest[0] < low.value else "mm"
    why = (
        f"the largest part, {largest[1]}, is {largest[0]:.4g} mm long when its file is read in {unit}: "
        f"a device is usually {low.value:g} to {high.value:g} mm"
    )
    question = f"In which unit is {largest[1]} drawn: {guess}?"
    return [_hold("mesh.unit", largest[1], why, f"state the right [job] mesh_unit ({guess}?)", "unit", question)]


def _units_apart(job: Job, surveys: Mapping[str, Survey]) -> list[Finding]:
    """Judge single parts far too small for a device, and files of no unit beside one that states another."""
    if job.mesh_unit is not None:
        return []
    stated = {survey.unit for survey in surveys.values()} - {"mm"}
    found = []
    for name, survey in surveys.items():
        if survey.unit != "mm":
            continue
        if stated:
            other = ", ".join(sorted(stated))
            why = f"{name} names no unit and is read in mm, while other files of the job are in {other}"
        elif max(survey.size_mm) < TINY_SHARE * job.limits.unit_least_mm.value:
            why = f"{name} is only {max(survey.size_mm):.3g} mm long when its file is read in mm"
        else:
            continue
        question = f"In which unit is {name} drawn: mm, cm or inch?"
        found.append(
            _hold("mesh.unit", name, why, "state [job] mesh_unit, or save all files in one unit", "unit", question)
        )
    return found


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
                    _hold("size.mixed", other.name, why, remedy, "file", f"Which size of {one.name} is meant?")
                )
    return found


def _same_shape(one: Survey, other: Survey) -> float | None:
    """Return by what the other is larger where both are the same shape, mirrored or not; else None."""
    if one.triangles_n != other.triangles_n:
        return None
    ratio = (abs(other.volume_mm3) / max(abs(one.volume_mm3), 1e-9)) ** (1 / 3)
    facts = [np.sort(one.size_mm) * ratio, np.sort(other.size_mm)]
    same = np.allclose(facts[0], facts[1], rtol=ALIKE) and abs(other.area_mm2 / one.area_mm2 / ratio**2 - 1) < ALIKE
    return float(ratio) if same else None


def _hold(rule: str, part: str, why: str, remedy: str, feature: str, question: str = "") -> Finding:
    """Return a hold."""
    return Finding(
        rule=rule,
        part=part,
        feature=feature,
        verdict=Verdict.HOLD,
        why=why,
        remedy=remedy,
        source="mesh file",
        question=question,
    )
