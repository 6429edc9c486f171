"""The form: values of the job file shown as fields, and fields put back into the file, comments and order kept."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import tomlkit
from tomlkit.items import AoT, Table

from planner.errors import CommandError
from planner.job import shipped_names

JOB_FIELDS = {"name": str, "printer": str, "material": str, "settings": str}
SIZE_FIELDS = {"percent": float, "side": str, "drawn_for": str}
PART_FIELDS = {"count": int, "duty": str, "handed": bool, "skin_side": bool, "colour": str}


def form_of(text: str) -> dict[str, Any]:
    """Return the fields with their values (None where the file says nothing) and what may be chosen."""
    document = tomlkit.parse(text).unwrap() if text else {}
    job, size = document.get("job", {}), document.get("size", {})
    return {
        "job": {key: job.get(key) for key in JOB_FIELDS},
        "size": {key: size.get(key) for key in SIZE_FIELDS},
        "parts": [
            {"name": part.get("name"), **{key: part.get(key) for key in PART_FIELDS}}
            for part in document.get("part", [])
        ],
        "choices": {
            "printer": shipped_names("printers"),
            "material": ["auto", *shipped_names("materials")],
            "settings": shipped_names("settings"),
            "side": ["left", "right"],
            "drawn_for": ["left", "right"],
            "duty": ["shell", "load", "pin", "cover", "soft"],
        },
    }


def with_form(text: str, fields: Mapping[str, Any]) -> str:
    """Return the file's text with fields put in; an empty field takes its key out.

    Raises
    ------
    CommandError
        A field is not known, or its value is of the wrong kind.
    """
    document = tomlkit.parse(text)
    for room, known in (("job", JOB_FIELDS), ("size", SIZE_FIELDS)):
        given = _mapping(fields.get(room, {}), room)
        if not given:
            continue
        if room not in document:
            document[room] = tomlkit.table()
        _put(document[room], given, known, room)
    parts = _mapping(fields.get("parts", {}), "parts")
    tables = document.get("part", [])
    for name, given in parts.items():
        table = next((each for each in tables if each.get("name") == name), None) if isinstance(tables, AoT) else None
        if table is None:
            raise CommandError(where=f"part {name!r}", wrong="the job has no such part", todo="reload the page")
        _put(table, _mapping(given, name), PART_FIELDS, name)
    return tomlkit.dumps(document)


def _mapping(value: Any, where: str) -> Mapping[str, Any]:
    """Return a value that must be a table."""
    if not isinstance(value, Mapping):
        raise CommandError(where=where[:80], wrong="it is no table of fields", todo="send fields by their names")
    return value


def _put(table: Any, given: Mapping[str, Any], known: Mapping[str, type], where: str) -> None:
    """Put fields into one table."""
    assert isinstance(table, Table)
    for key, value in given.items():
        if key not in known:
            raise CommandError(where=f"{where} {key!r}"[:100], wrong="no field is called that", todo="reload the page")
        if value is None or value == "":
            if key in table:
                del table[key]
            continue
        kind = known[key]
        number = isinstance(value, int | float) and not isinstance(value, bool)
        fits = number if kind is float else number and value == int(value) if kind is int else isinstance(value, kind)
        if not fits:
            raise CommandError(
                where=f"{where} {key}", wrong=f"{str(value)[:40]!r} cannot be", todo=f"give a {kind.__name__}"
            )
        table[key] = kind(value)
