"""The program's stamp: what is kept under it, or under a key with it, hangs on every file of the program.

It hangs on every library by its version, too: letters, pages and numbers are drawn, written and computed by them.
"""

from __future__ import annotations

import sys
from contextlib import suppress
from functools import lru_cache
from pathlib import Path

import planner
from planner.cache import key_of
from planner.job.profiles.shipped import shipped


@lru_cache(maxsize=1)
def program_stamp() -> str:
    """Return a key of the program's own files and of the shipped profiles, and of all that is installed beside it."""
    folders = (Path(planner.__file__).parent, Path(str(shipped("profiles"))))
    files = sorted(
        path for folder in folders for path in folder.rglob("*") if path.suffix not in (".pyc", ".nbi", ".nbc")
    )
    own = [(str(path), path.stat().st_size, path.stat().st_mtime_ns) for path in files if path.is_file()]
    return key_of(sys.version, libraries(tuple(sys.path)), *own)


def libraries(places: tuple[str, ...]) -> list[str]:
    """Return the names of all libraries installed in some folders, with their versions, in order.

    Each has a folder called ``name-version.dist-info`` beside it (PyPA, Recording installed projects, of PEP 376).
    """
    found: list[str] = []
    for place in dict.fromkeys(places):
        with suppress(OSError):
            found += [path.name for path in Path(place).iterdir() if path.suffix == ".dist-info"]
    return sorted(found)
