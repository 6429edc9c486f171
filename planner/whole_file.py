"""A file is written whole or not at all: beside its place first, then renamed into it."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from planner.errors import CommandError


@contextmanager
def whole(path: Path, mode: int = 0o644) -> Iterator[Path]:
    """Yield an empty file beside ``path`` to be filled, and to be read back where that is wanted.

    It takes the place of ``path`` where the block ends well; otherwise what was there stands, and nothing is left
    behind. ``mode`` is what the file may be read by: temporary files start private. A link is followed.

    Raises
    ------
    CommandError
        What stands there is no regular file: a device, a pipe or a folder is never replaced.
    """
    path = path.resolve()
    if path.exists() and not path.is_file():
        raise CommandError(where=str(path), wrong="it is a folder, a device or a pipe", todo="name a file")
    handle, name = tempfile.mkstemp(dir=path.parent, suffix=path.suffix)
    os.close(handle)
    aside = Path(name)
    try:
        yield aside
        aside.chmod(mode)
        aside.replace(path)
    except BaseException:
        aside.unlink(missing_ok=True)
        raise


def write_text(path: Path, text: str, mode: int = 0o644) -> None:
    """Write a text whole or not at all; its folder is made where there is none."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with whole(path, mode) as aside:
        aside.write_text(text, encoding="utf-8")
