"""A job file's text for another folder: whatever it names relative to its own folder is named from there."""

from __future__ import annotations

import os
from collections.abc import Iterable, MutableMapping
from pathlib import Path
from typing import cast

import tomlkit

from planner.job.file.toml_file import is_there

FILES = {
    "part": ("mesh",),
    "padding": ("outline",),
    "spool": ("material",),
    "job": ("printer", "settings", "material", "limits"),
}
"""Keys that may name a file, by table; a name of a shipped profile is none."""


def moved(text: str, base: Path, folder: Path) -> str:
    """Return the text with the paths in it, which are relative to ``base``, relative to another folder."""
    if base.resolve() == folder.resolve():
        return text
    document = tomlkit.parse(text)
    for name, keys in FILES.items():
        for table in _tables(document, name):
            for key in keys:
                if key in table:
                    table[key] = _moved(str(table[key]), base, folder)
    for table in _tables(document, "plan"):
        if "printers" in table:
            names = cast("Iterable[object]", table["printers"])
            table["printers"] = [_moved(str(name), base, folder) for name in names]
    return tomlkit.dumps(document)


def _tables(document: tomlkit.TOMLDocument, name: str) -> list[MutableMapping[str, object]]:
    """Return a table of a document, or every table of a list."""
    found = document.get(name, [])
    return list(found) if isinstance(found, list) else [cast("MutableMapping[str, object]", found)]


def _moved(named: str, base: Path, folder: Path) -> str:
    """Return the path to a file from another folder; what names no file stays."""
    path = base / named
    if Path(named).is_absolute() or not is_there(path):
        return named
    return Path(os.path.relpath(path.resolve(), folder.resolve())).as_posix()
