"""What was computed once is kept under a content key in the user's cache folder.

Anything in that folder may be deleted at any time; a file that does not load is computed again.
The key must name everything that the value depends on, the version of the computation included.
Set ``FITWRIGHT_CACHE`` to use another folder, or to ``off`` to keep nothing.
"""

from __future__ import annotations

import hashlib
import os
import pickle
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

import platformdirs

from planner import __version__
from planner.whole_file import whole

T = TypeVar("T")
SUM_BYTES = 16


def key_of(*facts: object) -> str:
    """Return a hex key for all facts together: bytes as they are, anything else by its ``repr``."""
    digest = hashlib.sha256()
    for fact in facts:
        raw = fact if isinstance(fact, bytes) else repr(fact).encode()
        digest.update(len(raw).to_bytes(8, "big") + raw)
    return digest.hexdigest()


def folder() -> Path | None:
    """Return the cache folder, or None where keeping is switched off."""
    chosen = os.environ.get("FITWRIGHT_CACHE", "")
    if chosen == "off":
        return None
    return Path(chosen) if chosen else Path(platformdirs.user_cache_dir("fitwright"))


def kept(room: str, key: str, make: Callable[[], T]) -> T:
    """Return the value kept under ``key``, or make it and keep it.

    Parameters
    ----------
    room
        Name of the room that computes the value, a sub-folder of the cache.
    key
        Content key, from :func:`key_of`.
    make
        Computes the value; must be picklable and depend on nothing but the key's facts.
    """
    base = folder()
    if base is None:
        return make()
    path = base / __version__ / room / key
    try:
        held = path.read_bytes()
        data = held[SUM_BYTES:]
        if held[:SUM_BYTES] == _sum(room, key, data):
            value: T = pickle.loads(data)
            return value
    except (OSError, pickle.UnpicklingError, EOFError, AttributeError, ImportError, IndexError, TypeError, ValueError):
        pass
    value = make()
    data = pickle.dumps(value, protocol=5)
    _write(path, _sum(room, key, data) + data)
    return value


def _sum(room: str, key: str, data: bytes) -> bytes:
    """Return the checksum of an entry in its place: one with a flipped bit, or of another place, is made anew."""
    return hashlib.blake2b(f"{room}/{key}/".encode() + data, digest_size=SUM_BYTES).digest()


def holds(room: str, key: str) -> bool:
    """Return whether something is kept under a key; it may still fail to load."""
    base = folder()
    return base is not None and (base / __version__ / room / key).exists()


def keys_in(room: str) -> tuple[str, ...]:
    """Return the keys of all that a room has kept, in order."""
    base = folder()
    there = base / __version__ / room if base is not None else None
    return tuple(sorted(path.name for path in there.iterdir())) if there is not None and there.is_dir() else ()


def _write(path: Path, data: bytes) -> None:
    """Write through a temporary file and a rename; a full or read-only disk only costs time."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with whole(path, 0o600) as aside:
            aside.write_bytes(data)
    except OSError:
        return
