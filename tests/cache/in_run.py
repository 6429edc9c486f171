"""What one run of the tests makes once for all its workers."""

from __future__ import annotations

import pickle
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from filelock import FileLock

from planner.whole_file import whole

T = TypeVar("T")


def in_run(folder: Path, name: str, make: Callable[[], T]) -> T:
    """Return what this run has made under a name, or make it: any object, in a folder that the run alone writes.

    Whoever asks while another worker makes it waits for that, and makes nothing twice.
    """
    path = folder / f"{name}.pickle"
    folder.mkdir(parents=True, exist_ok=True)
    with FileLock(path.with_suffix(".lock")):
        if path.exists():
            held: T = pickle.loads(path.read_bytes())
            return held
        made = make()
        with whole(path) as aside:
            aside.write_bytes(pickle.dumps(made, protocol=5))
        return made
