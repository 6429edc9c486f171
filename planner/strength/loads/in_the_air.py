"""Loads that a job states at a place where there is no part: nothing is known of what they do to it."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from planner.job import Job
from planner.mechanism import Frame, Landing, Movement
from planner.mesh import Solid
from planner.survey import Survey


def loads_in_the_air(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    frames: Mapping[str, Frame],
    movement: Movement | None,
    names: Collection[str],
) -> tuple[dict[str, str], set[str]]:
    """Return how far the ``load_at_mm`` of some parts lies off them, in words, and the names of all the others."""
    groups = [frozenset(frames)] if movement is None else movement.mechanism.groups
    landing = Landing(job=job, solids=solids, surveys=surveys, frames=frames, groups=groups)
    stated = {one.name: one.load_at_mm for one in job.parts if one.name in names and one.load_at_mm is not None}
    told = {name: landing.off_words(name, at, f"load_at_mm of {name}") for name, at in stated.items()}
    away = {name: off for name, off in told.items() if off}
    return away, set(names) - away.keys()
