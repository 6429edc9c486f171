"""What of a job concerns one part: where that is the same, so are the part's rules."""

from __future__ import annotations

from dataclasses import fields

from planner.job import Job

UNHEARD = ("notes", "name", "recipient")
"""Fields that no rule reads."""


def concerns(job: Job, part: str) -> tuple[object, ...]:
    """Return the job without what is only about other parts: entries of its lists that name others and not this one.

    Entries that name no part, such as materials, concern all.
    """
    found: list[object] = []
    for field in fields(job):
        value = getattr(job, field.name)
        if field.name in UNHEARD:
            continue
        if isinstance(value, tuple) and field.name != "materials":
            value = tuple(entry for entry in value if part in (names := named(entry, field.name)) or not names)
        found.append(value)
    return tuple(found)


def named(entry: object, table: str) -> tuple[str, ...]:
    """Return the parts that an entry of a job names."""
    if table == "parts":
        return (str(getattr(entry, "name", "")),)
    printed = getattr(entry, "printed", "")  # the part that is a piece of hardware itself
    for key in ("joins", "parts", "between", "part"):
        value = getattr(entry, key, None)
        if value:
            return (*((value,) if isinstance(value, str) else value), *((printed,) if printed else ()))
    return ()
