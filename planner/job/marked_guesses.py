"""What a job file marks as guessed, told as guesses: one line for all tables that say the same."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from planner.finding import Guess
from planner.job.job import Job
from planner.job.measured_size import Station
from planner.phrases import listed

BEFORE_LISTED = 3
"""So many names are told, then how many more there are."""


def marked_guesses(job: Job) -> tuple[Guess, ...]:
    """Return every value that nobody stated, and every duty that is left out."""
    same: dict[tuple[str, str], list[str]] = defaultdict(list)
    for table, name, record in _records(job):
        for key in record.guessed:
            value = getattr(record, key, None)
            if value is not None:
                same[f"{key} of {table}", _told(value)].append(name)
    whole = [
        Guess(what=what, value=value, why=f"for {listed(names, most_n=BEFORE_LISTED)}; nobody has stated it")
        for (what, value), names in same.items()
    ]
    if "mesh_unit" in job.guessed_keys and job.mesh_unit is None:
        whole.append(Guess(what="mesh_unit of job", value="mm", why="mesh files name no unit"))
    if "printer" in job.guessed_keys:
        whole.append(Guess(what="printer of job", value=job.printer.name, why="nobody has stated it"))
    return (
        *whole,
        *(
            Guess(what=f"duty of {part.name}", value="load", why="not stated, so judged as the strictest")
            for part in job.parts
            if part.duty is None
        ),
    )


def _records(job: Job) -> Iterable[tuple[str, str, Any]]:
    """Return every record that may hold guesses, with its table's name and its own."""
    yield from (("part", part.name, part) for part in job.parts)
    yield from (("hardware", one.name, one) for one in job.hardware)
    yield from (("open", one.name, one) for one in job.left_open)
    yield from (("gap", " to ".join(one.between), one) for one in job.gaps)
    yield from (("cord", one.name, one) for one in job.cords)
    yield from (("strap", one.name, one) for one in job.straps)
    yield from (("joint", one.name or " to ".join(one.between), one) for one in job.joints)
    yield from (("size.measure", one.name, one) for one in job.size.measures)
    yield ("size", job.name, job.size)


def _told(value: object) -> str:
    """Return a value in words."""
    if isinstance(value, Station):
        return f"measured at {value.station_percent:g} % of {value.part}"
    if isinstance(value, tuple):
        return ", ".join(str(one) for one in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:g}" if isinstance(value, float) else str(value)
