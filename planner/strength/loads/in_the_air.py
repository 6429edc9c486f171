"""Loads that a job states at a place where there is no part: nothing is known of what they do to it."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from planner.job import Job
from planner.mechanism import Frame, Landing, Movement
from planner.mesh import Solid
from planner.strength.loads.every_copy import copies_of
from planner.survey import Survey


def loads_in_the_air(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
    movement: Movement | None,
    names: Collection[str],
) -> tuple[dict[str, str], set[str]]:
    """Return how far the ``load_at_mm`` of some parts lies off them, in words, and the names of all the others.

    It must lie on every copy, or on what is fast to that copy.
    """
    groups = [frozenset(frames)] if movement is None else movement.mechanism.groups
    landing = Landing(job=job, solids=solids, surveys=surveys, frames=frames, groups=groups)
    away: dict[str, str] = {}
    for part in job.parts:
        if part.name not in names or part.load_at_mm is None:
            continue
        copies, said = copies_of(part, frames, ()), f"load_at_mm of {part.name}"
        told = (landing.off_words(copy, part.load_at_mm, said) for copy in copies)
        if off := next(filter(None, told), ""):
            away[part.name] = off
    return away, set(names) - away.keys()
