"""A TOML file becomes a table, or one sentence with its line."""

from __future__ import annotations

import os
import tomllib
from functools import lru_cache
from pathlib import Path

from planner.errors import FitwrightError
from planner.job.file.table import Table

PROFILE_MOST = 20_000
"""A text of fewer characters may be a profile, which is read again and again."""
BYTES_MOST = 4_000_000
"""A text file larger than this is no job and no profile."""


def read_toml(path: Path, error: type[FitwrightError]) -> Table:
    """Read a TOML file.

    Raises
    ------
    FitwrightError
        Of the kind given: no such file, a folder, too large, not text, or not TOML (with its line).
    """
    try:
        raw = path.read_bytes()
    except IsADirectoryError:
        raise error(where=str(path), wrong="this is a folder, not a file", todo="name the file in it") from None
    except OSError as problem:
        raise error(where=str(path), wrong=f"it cannot be read ({problem.strerror})", todo="check the path") from None
    if len(raw) > BYTES_MOST:
        raise error(
            where=path.name, wrong=f"it has {len(raw)} bytes, too many for a job or a profile", todo="name a TOML file"
        )
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise error(where=path.name, wrong="it is not UTF-8 text", todo="save it as plain UTF-8 text") from None
    return toml_table(text, path.name, error)


def is_there(path: Path, *, folder: bool = False) -> bool:
    """Return whether a file, or a folder, stands where somebody says; a name that no disk can hold names none."""
    return os.path.isdir(path) if folder else os.path.isfile(path)  # noqa: PTH112, PTH113  Path's raise for long names


def toml_table(text: str, name: str, error: type[FitwrightError]) -> Table:
    """Return the table that a text is; ``name`` is the file that mistakes are told of.

    Raises
    ------
    FitwrightError
        Of the kind given: it is not TOML (with its line).
    """
    try:
        plain = text.replace("\r\n", "\n")
        table = _profile(plain) if len(plain) < PROFILE_MOST else tomllib.loads(plain)
    except tomllib.TOMLDecodeError as problem:
        raise error(where=name, wrong=f"it is not TOML: {problem}", todo="correct that place") from None
    except ValueError:  # Python reads no whole number of more than 4300 digits
        raise error(where=name, wrong="a number in it has thousands of digits", todo="correct it") from None
    except RecursionError:
        raise error(where=name, wrong="it is nested too deeply", todo="write plain tables") from None
    return Table(table, name, error)


@lru_cache(maxsize=64)
def _profile(text: str) -> dict[str, object]:
    """Return the tables of a text: kept, as nobody changes what was read."""
    return tomllib.loads(text)
