"""The form: values of the job file shown as fields, and fields put back into the file, comments and order kept."""

from __future__ import annotations

from collections.abc import Mapping, MutableMapping, MutableSequence
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from planner.desk.form_fields import GUESSED, Field, put
from planner.desk.form_rows import change_rows, rows_of
from planner.errors import CommandError
from planner.job import shipped_names


def _by_key(*fields: Field) -> dict[str, Field]:
    """Return fields by their keys."""
    return {field.key: field for field in fields}


JOB_FIELDS = _by_key(
    Field(key="name", kind="text"),
    Field(key="printer", kind="text"),
    Field(key="material", kind="text"),
    Field(key="settings", kind="text"),
)
SIZE_FIELDS = _by_key(
    Field(key="percent", kind="number"),
    Field(key="governs", kind="text"),
    Field(key="side", kind="text"),
    Field(key="drawn_for", kind="text"),
)
PART_FIELDS = _by_key(
    Field(key="count", kind="whole"),
    Field(key="duty", kind="text"),
    Field(key="handed", kind="yes"),
    Field(key="skin_side", kind="yes"),
    Field(key="colour", kind="text"),
)


def form_of(text: str) -> dict[str, Any]:
    """Return the fields with their values (None where the file says nothing) and what may be chosen.

    A file that is no TOML, or holds something else where a table should be, gives empty fields: its text can be
    mended on the page all the same.
    """
    try:
        document = tomlkit.parse(text).unwrap()
    except (TOMLKitError, ValueError, RecursionError):
        document = {}
    job, size = (_table(document.get(room)) for room in ("job", "size"))
    parts = _tables(document.get("part"))
    return {
        "job": {key: job.get(key) for key in JOB_FIELDS},
        "size": {key: size.get(key) for key in SIZE_FIELDS},
        "parts": [{"name": part.get("name"), **{key: part.get(key) for key in PART_FIELDS}} for part in parts],
        "guesses": {
            "job": _guessed(job),
            "size": _guessed(size),
            "parts": {str(part.get("name")): _guessed(part) for part in parts},
        },
        "tables": rows_of(document, tuple(str(part.get("name")) for part in parts)),
        "choices": {
            "printer": shipped_names("printers"),
            "material": ["auto", *shipped_names("materials")],
            "settings": shipped_names("settings"),
            "governs": [str(measure.get("name")) for measure in _tables(size.get("measure"))],
            "side": ["left", "right"],
            "drawn_for": ["left", "right"],
            "duty": ["shell", "load", "pin", "cover", "soft"],
        },
    }


def with_form(text: str, fields: Mapping[str, Any]) -> str:
    """Return the file's text with fields put in; an empty field takes its key out.

    ``fields`` holds ``job`` and ``size`` (fields by key), ``parts`` (those by part), and ``rows``: one change of one
    row, see :func:`planner.desk.form_rows.change_rows`.

    Raises
    ------
    CommandError
        A field is not known, or its value is of the wrong kind.
    """
    try:
        document = tomlkit.parse(text)
    except (TOMLKitError, ValueError, RecursionError):
        raise CommandError(where="job.toml", wrong="it is not TOML yet", todo="correct it in the whole file") from None
    for room, known in (("job", JOB_FIELDS), ("size", SIZE_FIELDS)):
        given = _mapping(fields.get(room, {}), room)
        if not given:
            continue
        if room not in document:
            document[room] = tomlkit.table()
        put(_written(document[room], room), given, known, room)
    parts = _mapping(fields.get("parts", {}), "parts")
    tables = document.get("part", [])
    for name, given in parts.items():
        found = isinstance(tables, MutableSequence)
        table = next((each for each in tables if each.get("name") == name), None) if found else None
        if table is None:
            raise CommandError(where=f"part {name!r}", wrong="the job has no such part", todo="reload the page")
        put(table, _mapping(given, name), PART_FIELDS, name)
    return change_rows(document, _mapping(fields["rows"], "rows")) if "rows" in fields else tomlkit.dumps(document)


def _guessed(table: Mapping[str, Any]) -> list[str]:
    """Return the keys of a table that nobody has stated."""
    held = table.get(GUESSED)
    return [str(key) for key in held] if isinstance(held, list) else []


def _table(value: Any) -> Mapping[str, Any]:
    """Return a table, empty where the file holds something else."""
    return value if isinstance(value, Mapping) else {}


def _tables(value: Any) -> list[Mapping[str, Any]]:
    """Return a list of tables, empty where the file holds something else."""
    return [each for each in value if isinstance(each, Mapping)] if isinstance(value, list) else []


def _written(value: Any, room: str) -> MutableMapping[str, Any]:
    """Return a table of the file, however it is written: under a heading, in one line, or in several places."""
    if not isinstance(value, MutableMapping):
        raise CommandError(where=room, wrong="the file holds no table there", todo="correct it in the whole file")
    return value


def _mapping(value: Any, where: str) -> Mapping[str, Any]:
    """Return a value that must be a table."""
    if not isinstance(value, Mapping):
        raise CommandError(where=where[:80], wrong="it is not a table of fields", todo="send fields by their names")
    return value
