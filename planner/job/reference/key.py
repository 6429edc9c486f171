"""One key of a file, and the table that holds it."""

from __future__ import annotations

from dataclasses import dataclass

NEEDED = "needed"
"""Stands where a default would: the file is refused without the key."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """One key, as a person looks it up."""

    name: str
    """As it is written in the file."""
    takes: str
    """What may stand there, in words."""
    unit: str
    """Empty for words and plain numbers."""
    default: str
    """What holds where it is left out; empty: nothing."""
    meaning: str
    """One sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyTable:
    """One table of a file with all its keys."""

    name: str
    """What ``fitwright keys`` calls it."""
    heading: str
    """As the file writes it."""
    file: str
    """The file, or the kind of profile, that it stands in."""
    about: str
    """One sentence."""
    keys: tuple[Key, ...]
