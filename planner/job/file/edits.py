"""Edits of a job file as data: what an answer or a remedy writes, and the job that comes of it.

One path for both: the text is edited with its comments kept, and the job is what the edited text reads as.
"""

from __future__ import annotations

import os
import tomllib
from collections.abc import Iterable, Mapping, MutableMapping, Sequence
from copy import deepcopy
from dataclasses import dataclass, field, fields, replace
from pathlib import Path
from typing import Any, cast

import tomlkit
from tomlkit import TOMLDocument
from tomlkit.items import Item
from tomlkit.items import Table as TableItem

from planner.errors import JobError
from planner.job.file.job_file import PRINTER, job_of_table
from planner.job.file.table import Table
from planner.job.file.toml_file import toml_table
from planner.job.job import Job
from planner.job.start.write_job import job_text

LISTS = (
    "part",
    "hardware",
    "cord",
    "strap",
    "padding",
    "gap",
    "open",
    "joint",
    "place",
    "point",
    "work",
    "spool",
    "override",
)
"""Tables that stand several times, written ``[[…]]``."""
GUESSED = "guessed"
"""The key that lists which keys of a table nobody has stated."""
COUNTED = "GUESS: from the form; nobody has stated it"
"""What stands behind a value that an answer brings along, and that the answer does not state."""
Value = (
    str
    | float
    | int
    | bool
    | Sequence[str]
    | Sequence[float]
    | Mapping[str, str | float]
    | Sequence[Mapping[str, str | float]]
)
"""What a key of a job file may be set to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """One change of one table of a job file.

    ``Edit(table="part", name="cuff", put={"duty": "shell"})`` states a duty. A ``[[…]]`` table that is not there is
    added at the end of its kind; ``drop`` takes the whole table out.
    """

    table: str
    """``job``, ``size``, ``settings``, ``use``, ``plan``, or one of ``LISTS``."""
    name: str = ""
    """Which of several: its ``name``, ``part`` of a padding, ``one to other`` of a gap, ``drill jaw b1`` of work."""
    put: Mapping[str, Value] = field(default_factory=dict)
    """Keys with their new values."""
    without: tuple[str, ...] = ()
    """Keys that are taken out."""
    drop: bool = False
    """Whether the whole table goes."""
    guessed: tuple[str, ...] = ()
    """Keys among ``put`` that nobody has stated all the same."""


def edited(text: str, edits: Iterable[Edit], note: str = "") -> str:
    r"""Return the text of a job file with edits made; all else stands as it was, comments too.

    A key that is put, or taken out, no longer counts as guessed. ``note`` stays behind each value as a comment.

    >>> print(edited('[[part]]\nname = "cuff"\nduty = "load"\n', [Edit(table="part", name="cuff",
    ...     put={"duty": "shell"})], "answered"), end="")
    [[part]]
    name = "cuff"
    duty = "shell" # answered
    """
    document = tomlkit.parse(text)
    change(document, edits, note)
    return tomlkit.dumps(document)


def change(document: MutableMapping[str, Any], edits: Iterable[Edit], note: str = "") -> None:
    """Make edits in a file's tables: in its text, or in plain ones as ``tomllib`` reads them."""
    for edit in edits:
        if edit.drop:
            _drop(document, edit)
        else:
            _change(_table(document, edit), edit, note)


def with_edits(job: Job, edits: Sequence[Edit]) -> Job:
    """Return the job with edits made, as its file would read with them; what an option replaced stays replaced.

    Raises
    ------
    JobError, ProfileError
        Where the edited file would not load.
    """
    text, base = source_text(job)
    document = toml_table(text, job.path.name, JobError).raw
    before, tables = read_tables(document, job.path, base), deepcopy(document)
    change(tables, with_meshes(job, edits, document, base))
    after = read_tables(tables, job.path, base)
    changed = {f.name: getattr(after, f.name) for f in fields(Job) if getattr(after, f.name) != getattr(before, f.name)}
    return replace(job, **changed)


def completed(job: Job, edits: Iterable[Edit]) -> tuple[Edit, ...]:
    """Return edits that can be written into the job's file: a part that it only implies gets a table with its mesh."""
    text, base = source_text(job)
    return with_meshes(job, edits, tomllib.loads(text), base)


def with_meshes(job: Job, edits: Iterable[Edit], document: Mapping[str, Any], base: Path) -> tuple[Edit, ...]:
    """Return edits that name the mesh of every part that a file's tables only imply; ``base`` is its folder."""
    written = {entry.get("name") for entry in document.get("part", ())}
    meshes = {part.name: Path(os.path.relpath(part.mesh, base)).as_posix() for part in job.parts}
    return tuple(
        replace(edit, put={"mesh": meshes[edit.name], "name": edit.name, **edit.put})
        if edit.table == "part" and not edit.drop and edit.name in meshes.keys() - written
        else edit
        for edit in edits
    )


def source_text(job: Job) -> tuple[str, Path]:
    """Return the text that a job was read from, and the folder its paths are relative to.

    A job guessed from a folder has none: it is what ``fitwright start`` would write, for the usual printer.
    """
    if job.path.is_dir():
        return job_text(job, {part.name: part.sha256 for part in job.parts}, PRINTER), job.path.resolve()
    return job.path.read_text(encoding="utf-8-sig"), job.path.resolve().parent


def read_text(text: str, path: Path, base: Path) -> Job:
    """Return the job that a text reads as."""
    return job_of_table(toml_table(text, path.name, JobError), path, base)


def read_tables(document: Mapping[str, Any], path: Path, base: Path) -> Job:
    """Return the job that a file's tables say."""
    return job_of_table(Table(document, path.name, JobError), path, base)


def _called(entry: Mapping[str, object]) -> str:
    """Return what an entry of a list is called by an edit."""
    if "between" in entry:
        return " to ".join(str(name) for name in cast("Sequence[object]", entry["between"]))
    if "to_mm" in entry:  # one piece of work of a kind on an opening
        which = cast("Sequence[object]", entry.get("bores", [entry.get("drawn_mm", "")]))
        return f"{entry.get('kind', '')} {entry.get('part', '')} {', '.join(map(str, which))}"
    return str(entry.get("name", entry.get("part", entry.get("rule", entry.get("material", "")))))


def _table(document: MutableMapping[str, Any], edit: Edit) -> MutableMapping[str, Any]:
    """Return the table that an edit speaks of; a new one where it is not there."""
    fresh: MutableMapping[str, Any] = tomlkit.table() if isinstance(document, TOMLDocument) else {}
    if edit.table not in LISTS:
        if edit.table not in document:
            document[edit.table] = fresh
        return cast("MutableMapping[str, Any]", document[edit.table])
    if edit.table not in document:
        document[edit.table] = tomlkit.aot() if isinstance(document, TOMLDocument) else []
    entries = document[edit.table]
    for entry in entries:
        if _called(entry) == edit.name:
            return cast("MutableMapping[str, Any]", entry)
    if edit.name and not {"name", "part", "between"} & set(edit.put):
        fresh["name"] = edit.name
    entries.append(fresh)
    return cast("MutableMapping[str, Any]", entries[-1])


def _change(table: MutableMapping[str, Any], edit: Edit, note: str) -> None:
    """Put and take out keys, and strike them from what was guessed."""
    for key, value in edit.put.items():
        plain = list(value) if isinstance(value, tuple) else value
        table[key] = _in_line(value) if isinstance(table, TableItem) else plain
        item = table[key]
        if isinstance(item, Item) and not isinstance(item, TableItem):
            said = COUNTED if key in edit.guessed else note
            item.trivia.comment, item.trivia.comment_ws = (f"# {said}", " ") if said else ("", "")
    for key in edit.without:
        if key in table:
            del table[key]
    left = [key for key in table.get(GUESSED, ()) if key not in edit.put and key not in edit.without]
    left += edit.guessed
    if left:
        table[GUESSED] = left
    elif GUESSED in table:
        del table[GUESSED]


def _in_line(value: Value) -> Any:
    """Return a value as a file holds it: a list of tables in line, or the keys after it would be the last one's."""
    if isinstance(value, Mapping):
        found = tomlkit.inline_table()
        found.update(value)
        return found
    if isinstance(value, str) or not isinstance(value, Sequence):
        return value
    listed = tomlkit.array()
    listed.extend(_in_line(cast("Value", one)) for one in value)
    return listed


def _drop(document: MutableMapping[str, Any], edit: Edit) -> None:
    """Take a whole table out; nothing happens where it is not there."""
    if edit.table not in LISTS:
        document.pop(edit.table, None)
        return
    entries = document.get(edit.table, [])
    for k in range(len(entries) - 1, -1, -1):
        if _called(entries[k]) == edit.name:
            del entries[k]
    if edit.table in document and not entries:
        del document[edit.table]
