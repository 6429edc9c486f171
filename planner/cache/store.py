"""What was computed once is kept under a content key in the user's cache folder.

Anything in that folder may be deleted at any time, and what was not used for longest goes when it grows too large; a
file that does not load is computed again, and nothing in it is ever run. The key must name everything that the value
depends on, the version of the computation included. Set ``FITWRIGHT_CACHE`` to use another folder, or to ``off`` to
keep nothing, and ``FITWRIGHT_CACHE_MB`` to the size that it may have.
"""

from __future__ import annotations

import hashlib
import math
import os
import re
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

import platformdirs

from planner import __version__
from planner.cache.fact_bytes import fact_bytes
from planner.cache.record_bytes import as_bytes, from_bytes, shape_of
from planner.whole_file import whole

T = TypeVar("T")
SUM_BYTES = 16
SIZE_MB = 2000.0
"""What the folder may hold where nobody says: some hundred devices of thirty parts."""
LOOKED_SHARE = 1 / 32
"""The folder is looked over at a program's first entry, and again whenever it has written this share of the size."""
DOWN_TO = 0.8
"""What was used last stays, up to this share of the size: so that not every entry looks the folder over again."""
ASIDE, ASIDE_S = (".", "tmp"), 3600.0
"""How the names of files begin that are being written (earlier versions: tmp), and after how long one has been left."""
OURS = re.compile(r"\d+\.\d+[\w.+]*/[\w-]+/([0-9a-f]{64}|tmp\w+|\.[0-9a-f]+\.fitwright-[\w-]+)")
"""Paths of entries below the folder: where it is somebody's own, what else lies there is left alone."""
_WRITTEN: dict[Path, float] = {}
"""Bytes that this program has written to a folder since it looked it over."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One kept value: where, how large, and when it was last used, in seconds of the clock."""

    path: Path
    room: str
    size_bytes: int
    used_s: float


def key_of(*facts: object) -> str:
    """Return a hex key for all facts together, each by its content; ``TypeError`` where one has none to tell it by."""
    digest = hashlib.sha256()
    for fact in facts:
        raw = fact_bytes(fact)
        digest.update(len(raw).to_bytes(8, "big") + raw)
    return digest.hexdigest()


def folder() -> Path | None:
    """Return the cache folder, or None where keeping is switched off."""
    chosen = os.environ.get("FITWRIGHT_CACHE", "")
    if chosen == "off":
        return None
    return Path(chosen) if chosen else Path(platformdirs.user_cache_dir("fitwright"))


def most_bytes() -> float:
    """Return the size that the cache folder may have."""
    with suppress(ValueError):
        stated_mb = float(os.environ.get("FITWRIGHT_CACHE_MB", ""))
        if stated_mb >= 0.0 and math.isfinite(stated_mb):
            return stated_mb * 1e6
    return SIZE_MB * 1e6


def kept(room: str, key: str, kind: Any, make: Callable[[], T]) -> T:
    """Return the value kept under ``key``, or make it and keep it.

    Parameters
    ----------
    room
        Name of the room that computes the value, a sub-folder of the cache.
    key
        Content key, from :func:`key_of`.
    kind
        The value's type: nothing else is ever read back.
    make
        Computes the value; must depend on nothing but the key's facts.

    What is made is read back from its own bytes, so that the first run and all later ones take the same.
    """
    for value in found(room, key, kind):
        there: T = value
        return there
    return keep(room, key, kind, make())


def found(room: str, key: str, kind: Any) -> tuple[Any, ...]:
    """Return the value of a kind that is kept under a key, alone; nothing where there is none, or it does not load."""
    base = folder()
    if base is None:
        return ()
    path = base / __version__ / room / key
    with suppress(OSError, ValueError):
        held = path.read_bytes()
        data = memoryview(held)[SUM_BYTES:]
        if held[:SUM_BYTES] == _sum(_stamp(room, key, kind), data):
            value = from_bytes(data, kind)
            with suppress(OSError):
                os.utime(path)
            return (value,)
    return ()


def keep(room: str, key: str, kind: Any, made: T) -> T:
    """Keep a value under a key, and return it as it is read back from its own bytes."""
    try:
        data = memoryview(as_bytes(made))
    except (UnicodeEncodeError, OverflowError):  # a file's name that is no text: nothing to keep it by
        return made
    base = folder()
    if base is not None:
        _write(base, base / __version__ / room / key, _sum(_stamp(room, key, kind), data) + data)
    again: T = from_bytes(data, kind)
    return again


def _stamp(room: str, key: str, kind: Any) -> bytes:
    """Return what an entry's checksum hangs on beside its bytes: its place and its shape."""
    return f"{room}/{key}/".encode() + shape_of(kind)


def held() -> dict[str, bytes]:
    """Return all that is kept, by path below the folder: what ``put`` takes in another one."""
    base = folder()
    if base is None:
        return {}
    return {entry.path.relative_to(base).as_posix(): entry.path.read_bytes() for entry in entries()}


def put(name: str, data: bytes) -> None:
    """Keep what another cache of this program held, under its path below the folder; what is no entry's is dropped.

    Nothing in it is trusted: an entry of another place, shape or version, or with a flipped bit, is made again.
    """
    base = folder()
    if base is not None and OURS.fullmatch(name) and not Path(name).name.startswith(ASIDE):
        _write(base, base / name, data)


def _sum(stamp: bytes, data: memoryview) -> bytes:
    """Return the checksum of an entry: one with a flipped bit, of another place or another shape is made anew."""
    return hashlib.blake2b(data, key=hashlib.blake2b(stamp).digest(), digest_size=SUM_BYTES).digest()


def holds(room: str, key: str) -> bool:
    """Return whether something is kept under a key; it may still fail to load."""
    base = folder()
    return base is not None and (base / __version__ / room / key).exists()


def keys_in(room: str) -> tuple[str, ...]:
    """Return the keys of all that a room has kept, in order."""
    base = folder()
    there = base / __version__ / room if base is not None else None
    if there is None or not there.is_dir():
        return ()
    return tuple(sorted(path.name for path in there.iterdir() if not path.name.startswith(ASIDE)))


def entries() -> Iterator[Entry]:
    """Yield all that is kept, of other versions too, and what killed programs left."""
    base = folder()
    if base is None:
        return
    for path in base.glob("*/*/*"):
        with suppress(OSError):
            about = path.lstat()
            if path.is_file() and OURS.fullmatch(path.relative_to(base).as_posix()):
                yield Entry(path=path, room=path.parent.name, size_bytes=about.st_size, used_s=about.st_mtime)


def clear(rooms: tuple[str, ...] = ()) -> tuple[Entry, ...]:
    """Delete all that is kept, or what some rooms have kept, and return it."""
    gone = tuple(entry for entry in entries() if not rooms or entry.room in rooms)
    for entry in gone:
        with suppress(OSError):
            entry.path.unlink()
    return gone


def _write(base: Path, path: Path, data: bytes) -> None:
    """Write through a temporary file and a rename; a full or read-only disk only costs time."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with whole(path, 0o600, clear=False) as aside:
            aside.write_bytes(data)
    except OSError:
        return
    _WRITTEN[base] = _WRITTEN.get(base, math.inf) + len(data)
    if _WRITTEN[base] > LOOKED_SHARE * most_bytes():
        _WRITTEN[base] = 0.0
        _make_room()


def _make_room() -> None:
    """Delete what was not used for longest until the rest has room, and what killed programs left."""
    found = sorted(entries(), key=lambda entry: -entry.used_s)
    full, now_s, held_bytes = sum(entry.size_bytes for entry in found) > most_bytes(), time.time(), 0
    for entry in found:
        held_bytes += entry.size_bytes
        left = entry.path.name.startswith(ASIDE) and now_s - entry.used_s > ASIDE_S
        if left or (full and held_bytes > DOWN_TO * most_bytes()):
            with suppress(OSError):
                entry.path.unlink()
