"""What a job leaves open: units of single parts first; of a part in doubtful units nothing else is asked or guessed."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from planner.assembly import CloseFit, Doubt, Option, doubts_of, with_guesses
from planner.job import Edit, Job
from planner.phrases import listed
from planner.rules.fit.mesh_units import DoubtedUnit, doubted_units, in_doubt
from planner.survey import Survey

DOUBTS_MOST = 8
LIKELY_SHARE = 0.9
"""How often the first unit that makes a part plausible is meant; common practice, no source."""


def open_doubts(
    job: Job, surveys: Mapping[str, Survey], most: int = DOUBTS_MOST, close: Sequence[CloseFit] = ()
) -> tuple[Doubt, ...]:
    """Return every question that a job leaves open and that one answer closes, those about units first."""
    names = in_doubt(job, surveys)
    units = [_unit_doubt(one, surveys) for one in doubted_units(job, surveys) if names.intersection(one.parts)]
    sure = [fit for fit in close if not names.intersection((fit.inner, fit.outer))]
    return (*units, *doubts_of(_without_bores(job, names), surveys, max(1, most - len(units)), sure))


def with_sure_guesses(job: Job, surveys: Mapping[str, Survey]) -> Job:
    """Return a folder's job with what its meshes say by themselves; nothing is guessed of bores of unknown size."""
    guessed = with_guesses(_without_bores(job, in_doubt(job, surveys)), surveys)
    ignored = {part.name: part.ignore_bores for part in job.parts}
    return replace(guessed, parts=tuple(replace(one, ignore_bores=ignored[one.name]) for one in guessed.parts))


def _without_bores(job: Job, names: Collection[str]) -> Job:
    """Return a job in which the bores of some parts say nothing."""
    if not names:
        return job
    parts = tuple(replace(one, ignore_bores=True) if one.name in names else one for one in job.parts)
    return replace(job, parts=parts)


def _unit_doubt(doubted: DoubtedUnit, surveys: Mapping[str, Survey]) -> Doubt:
    """Return the question for the unit of some parts: the likeliest first, and as they were read."""
    names, read = doubted.parts, surveys[doubted.parts[0]].unit
    units = (*doubted.units, *([read] if read not in doubted.units else []))
    what = f"{names[0]} drawn" if len(names) == 1 else f"these drawn: {listed(names)}"
    size = " x ".join(f"{side:.4g}" for side in surveys[names[0]].size_mm)
    left = (1.0 - LIKELY_SHARE) / (len(units) - 1)
    return Doubt(
        id=doubted.id,
        text=f"In which unit {'is' if len(names) == 1 else 'are'} {what}? In {read} {names[0]} would be {size} mm.",
        options=tuple(
            Option(
                name=unit,
                text=f"{listed(names)} {'is' if len(names) == 1 else 'are'} drawn in {unit}",
                edits=tuple(Edit(table="part", name=name, put={"mesh_unit": unit}) for name in names),
                share=round(LIKELY_SHARE if unit == units[0] else left, 2),
            )
            for unit in units
        ),
        default=units[0],
        features=tuple((name, "unit") for name in names),
    )
