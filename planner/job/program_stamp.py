"""The program's stamp: what is kept under it, or under a key with it, hangs on every file of the program."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import planner
from planner.cache import key_of
from planner.job.profiles.shipped import shipped


@lru_cache(maxsize=1)
def program_stamp() -> str:
    """Return a key of the program's own files and of the shipped profiles: their names, sizes and times of change."""
    folders = (Path(planner.__file__).parent, Path(str(shipped("profiles"))))
    files = sorted(
        path for folder in folders for path in folder.rglob("*") if path.suffix not in (".pyc", ".nbi", ".nbc")
    )
    return key_of(*((str(path), path.stat().st_size, path.stat().st_mtime_ns) for path in files if path.is_file()))
