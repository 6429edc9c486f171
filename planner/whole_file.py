"""A file is written whole or not at all: beside its place first, then renamed into it."""

from __future__ import annotations

import hashlib
import os
import platform
import re
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import cache
from pathlib import Path

from planner.errors import CommandError, FitwrightError

MARK = ".fitwright-"
"""Stands in the names of files that are being written."""
LEFT_S = 3600.0
"""After so long a file beside its place was left by a program that was killed on another computer, or long ago."""
LETTERS_MOST = 40
"""So much of a file's name is kept in the one beside it: names have an end, and letters may take four bytes."""


@contextmanager
def whole(path: Path, mode: int = 0o644, *, clear: bool = True) -> Iterator[Path]:
    """Yield an empty file beside ``path`` to be filled, and to be read back where that is wanted.

    It takes the place of ``path`` where the block ends well; otherwise what was there stands, and nothing is left
    behind. ``mode`` is what the file may be read by: temporary files start private. A link is followed. What killed
    programs left in the folder goes first, unless ``clear`` is false: where it holds very many files.

    Raises
    ------
    CommandError
        What stands there is no regular file: a device, a pipe or a folder is never replaced.
    """
    path = path.resolve()
    if path.exists() and not path.is_file():
        raise CommandError(where=str(path), wrong="it is a folder, a device or a pipe", todo="name a file")
    if clear:
        _clear(path.parent)
    begins = f".{path.name[:LETTERS_MOST]}{MARK}{_here()}-{os.getpid()}-"  # hidden: nobody takes it for a mesh
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=begins, suffix=path.suffix)
    os.close(handle)
    aside = Path(name)
    try:
        yield aside
        aside.chmod(mode)
        aside.replace(path)
    except BaseException as error:
        aside.unlink(missing_ok=True)
        if isinstance(error, FitwrightError):  # it speaks of the file that this was to be
            error.where = error.where.replace(aside.name, path.name)
            error.wrong = error.wrong.replace(aside.name, path.name)
        raise


def write_text(path: Path, text: str, mode: int = 0o644) -> None:
    """Write a text whole or not at all; its folder is made where there is none."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with whole(path, mode) as aside:
        aside.write_text(text, encoding="utf-8")


@cache
def _here() -> str:
    """Return a word for this computer: process numbers of others say nothing here."""
    return hashlib.sha256(platform.node().encode("utf-8", "replace")).hexdigest()[:8]


def _clear(folder: Path) -> None:
    """Take away what killed programs left in a folder."""
    with os.scandir(folder) as found:
        names = [entry.name for entry in found if entry.name.startswith(".") and MARK in entry.name]
    for name in names:
        with suppress(OSError):
            if _is_left(folder / name, name.rpartition(MARK)[2]):
                (folder / name).unlink()


def _is_left(left: Path, rest: str) -> bool:
    """Return whether the program that writes a file beside its place has ended."""
    if time.time() - left.lstat().st_mtime > LEFT_S:
        return True
    told = re.match(r"([0-9a-f]{8})-(\d+)-", rest)
    if told is None or told[1] != _here() or os.name != "posix":  # elsewhere asking for a process would end it
        return False
    try:
        os.kill(int(told[2]), 0)
    except ProcessLookupError:
        return True
    except (OSError, OverflowError):
        return False
    return False
