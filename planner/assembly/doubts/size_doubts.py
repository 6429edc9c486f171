"""Doubts about sizes: the unit of the meshes, which measure governs, and running gaps that were guessed."""

from __future__ import annotations

from collections.abc import Mapping

from planner.assembly.doubts.doubt import Doubt, Option
from planner.job import Edit, Gap, Job, Measure, Station, scale_from
from planner.survey import Survey

MM_IN: Mapping[str, float] = {"mm": 1.0, "inch": 25.4, "cm": 10.0, "m": 1000.0}
"""The inch since 1959 (international yard and pound agreement)."""
LIKELY: Mapping[str, float] = {"mm": 0.5, "inch": 0.6, "cm": 0.25, "m": 0.1}
"""How often each unit is meant where the sizes allow several; common practice, no source."""


def unit_doubt(job: Job, surveys: Mapping[str, Survey]) -> Doubt | None:
    """Return the question for the unit where no file and no person named one, and millimetres make no device."""
    told = job.mesh_unit is not None or any(part.mesh_unit is not None for part in job.parts)
    if told or any(survey.unit != "mm" for survey in surveys.values()):
        return None
    longest = max(surveys.values(), key=lambda survey: max(survey.size_mm))
    as_read, low, high = max(longest.size_mm), job.limits.unit_least_mm.value, job.limits.unit_most_mm.value
    if low <= as_read <= high:
        return None
    fits = [unit for unit, mm in MM_IN.items() if low <= as_read * mm <= high] or ["inch", "cm"]
    units = sorted({*fits, "mm"}, key=lambda unit: (unit not in fits, -LIKELY[unit]))
    whole = sum(LIKELY[unit] for unit in units)
    return Doubt(
        id="unit",
        text=f"In which unit are the meshes drawn? {longest.name} is {as_read:.4g} of them long.",
        options=tuple(
            Option(
                name=unit,
                text=f"it is {unit}: {longest.name} is {as_read * MM_IN[unit]:.4g} mm long",
                edits=(Edit(table="job", put={"mesh_unit": unit}),),
                share=round(LIKELY[unit] / whole, 2),
            )
            for unit in units
        ),
        default=units[0],
        features=tuple((name, "") for name in surveys),
    )


def governing_doubt(job: Job) -> Doubt | None:
    """Return the question which measure governs, where several that a person gave ask for sizes too far apart."""
    measures = [one for one in job.size.measures if not isinstance(one.device_mm, Station)]
    if len(measures) < 2 or job.size.governs is not None or job.size.percent is not None:
        return None
    asked = sorted(((_percent(one), one.name) for one in measures), reverse=True)
    if asked[0][0] / asked[-1][0] <= 1.0 + job.limits.measures_apart_percent.value / 100.0:
        return None
    return Doubt(
        id="size-governs",
        text="Which measure governs the size? Bodies differ in proportion; padding makes up for the other measures.",
        options=tuple(
            Option(
                name=name,
                text=f"{name} governs: {percent:.1f} %",
                edits=(Edit(table="size", put={"governs": name}),),
                share=round(1.0 / len(asked), 2),
            )
            for percent, name in asked
        ),
        default=asked[0][1],
        features=(("", "size"),),
    )


def gap_doubts(job: Job) -> list[Doubt]:
    """Return one question for each running gap whose width nobody stated: as written, or as the meshes show it."""
    return [_gap_doubt(gap) for gap in job.gaps if "drawn_mm" in gap.guessed and gap.drawn_mm is not None]


def _gap_doubt(gap: Gap) -> Doubt:
    """Return the question for one gap."""
    name, (one, other) = " to ".join(gap.between), gap.between
    written = Edit(table="gap", name=name, put={"drawn_mm": gap.drawn_mm or 0.0})
    return Doubt(
        id=f"gap-{one}-{other}",
        text=f"How wide is the gap between {one} and {other} drawn, on each side?",
        options=(
            Option(name="as-written", text=f"it is {gap.drawn_mm:g} mm", edits=(written,), share=0.5),
            Option(
                name="as-the-meshes-lie",
                text="it is as the meshes show, which are drawn in place",
                edits=(Edit(table="gap", name=name, without=("drawn_mm",)),),
                share=0.5,
            ),
        ),
        default="as-written",
        features=((one, name),),
    )


def _percent(measure: Measure) -> float:
    """Return the scale that a measure with a stated device asks for."""
    assert not isinstance(measure.device_mm, Station)
    return scale_from(measure, measure.device_mm)
