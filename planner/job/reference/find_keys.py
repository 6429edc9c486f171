"""Every table of keys, and those that a person's word means."""

from __future__ import annotations

from collections.abc import Sequence

from planner.errors import CommandError, nearest
from planner.job.reference.job_tables import job_tables
from planner.job.reference.key import KeyTable
from planner.job.reference.profile_tables import profile_tables


def key_tables() -> tuple[KeyTable, ...]:
    """Return the tables of job files and profiles."""
    return (*job_tables(), *profile_tables())


def matching(tables: Sequence[KeyTable], word: str) -> tuple[KeyTable, ...]:
    """Return the tables that a word names, with those inside them; or those of a file.

    ``printer`` brings ``printer.bed`` with it, ``job.toml`` every table of the job file; brackets are heeded as
    little as case.

    Raises
    ------
    CommandError
        Where no table is called that; the nearest name is told.
    """
    name = word.strip().strip("[]").lower()
    found = tuple(
        table
        for table in tables
        if name in (table.name, table.file.lower()) or table.name.startswith((f"{name}.", f"{name}[]"))
    )
    if found:
        return found
    names = [table.name for table in tables]
    raise CommandError(where=f"keys {word}", wrong="no table is called that", todo=nearest(name, names))
