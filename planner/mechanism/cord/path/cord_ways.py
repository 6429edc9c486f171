"""The ways of all cords of a job, by the cords' names: the second of a table ``pull`` is ``pull#2``."""

from __future__ import annotations

from dataclasses import replace

from planner.job import Cord, Job, copy_name
from planner.mechanism.cord.path.next_way import Known, Way, next_ways
from planner.mechanism.cord.path.resolve_path import resolve_path

CordWay = tuple[Cord, Way | str]
"""A cord, and its way or the sentence why it is not known."""


def cord_ways(known: Known) -> dict[str, CordWay]:
    """Return every cord that has a path, and the others of its table, each on its way."""
    job, found = known.job, dict[str, CordWay]()
    for cord in job.cords:
        if not cord.path:
            continue
        first = resolve_path(job, known.solids, known.surveys, known.claims, cord)
        found[cord.name] = cord, first
        if isinstance(first, str) or any(stop.copy not in known.frames for stop in first):
            continue
        for n, way in enumerate(next_ways(known, cord, first), start=2):
            drives = copy_name(cord.drives, n) if n <= _copies(job, cord.drives) else cord.drives
            other = replace(cord, name=copy_name(cord.name, n), drives=drives)
            found[other.name] = other, way
    return found


def _copies(job: Job, name: str) -> int:
    """Return how many copies a name without a number stands for."""
    return next((part.count for part in job.parts if part.name == name), 1)
