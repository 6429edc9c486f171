"""The cache: what was computed once, kept under a content key.

``kept(room, key, kind, make)`` returns what is kept or makes it, ``found`` and ``keep`` are its two halves;
``key_of(facts)`` makes the key. ``holds`` and ``keys_in`` tell what is there, ``entries`` and ``clear`` are for
``fitwright cache``.
"""

from planner.cache.store import (
    Entry,
    clear,
    entries,
    folder,
    found,
    held,
    holds,
    keep,
    kept,
    key_of,
    keys_in,
    most_bytes,
    put,
)

__all__ = [
    "Entry",
    "clear",
    "entries",
    "folder",
    "found",
    "held",
    "holds",
    "keep",
    "kept",
    "key_of",
    "keys_in",
    "most_bytes",
    "put",
]
