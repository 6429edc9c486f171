"""Rows of a form: hardware, cords, straps and measures, added, changed and taken away in the file as it is written."""

from __future__ import annotations

import re
from collections.abc import Mapping, MutableMapping, MutableSequence
from dataclasses import dataclass
from datetime import date
from typing import Any

import tomlkit
from tomlkit import TOMLDocument
from tomlkit.items import Array, InlineTable, Table

from planner.desk.form_fields import GUESSED, Field, fields_of, put
from planner.errors import CommandError
from planner.job import Cord, Hardware, Measure, Strap, read_bodies


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """One kind of row: the table of the file that holds it, its headings, and its fields."""

    name: str
    path: tuple[str, ...]
    title: str
    one: str
    fields: tuple[Field, ...]


def _tables() -> tuple[Rows, ...]:
    """Return the kinds of row, their fields read off the records that the job reader fills."""
    words = {"how": ("caliper", "tape", "photo"), "body": tuple(read_bodies())}
    about = (
        (("size", "measure"), "Measures", "measure", Measure),
        (("hardware",), "Hardware", "piece of hardware", Hardware),
        (("cord",), "Cords", "cord", Cord),
        (("strap",), "Straps", "strap", Strap),
    )
    return tuple(
        Rows(name=path[-1], path=path, title=title, one=one, fields=fields_of(record, choices=words))
        for path, title, one, record in about
    )


TABLES = _tables()


def rows_of(document: Mapping[str, Any], parts: tuple[str, ...]) -> list[dict[str, Any]]:
    """Return every kind of row with its fields and values; ``document`` is plain, ``parts`` may be chosen.

    A value that no field can hold, such as a station on a mesh, is told in ``elsewhere`` and stays in the file.
    """
    told = []
    for rows in TABLES:
        found: Any = document
        for step in rows.path:
            found = found.get(step) if isinstance(found, Mapping) else None
        held = [one for one in found if isinstance(one, Mapping)] if isinstance(found, list) else []
        fields = [
            field.told() | ({"choices": parts} if field.kind in ("part", "parts") else {}) for field in rows.fields
        ]
        head = {"name": rows.name, "title": rows.title, "one": rows.one}
        told.append(head | {"fields": fields, "rows": [_row(rows, one) for one in held]})
    return told


def _row(rows: Rows, table: Mapping[str, Any]) -> dict[str, Any]:
    """Return the values of one row."""
    values, elsewhere = {}, {}
    for field in rows.fields:
        value = table.get(field.key, table.get(field.key.removesuffix("_mm")) if field.key == "device_mm" else None)
        if isinstance(value, Mapping):
            elsewhere[field.key] = ", ".join(f"{key.replace('_', ' ')} {inner}" for key, inner in value.items())
        else:
            values[field.key] = value.isoformat()[:10] if isinstance(value, date) else value
    held = table.get(GUESSED)
    return {"values": values, "elsewhere": elsewhere, "guessed": held if isinstance(held, list) else []}


def change_rows(document: TOMLDocument, change: Mapping[str, Any]) -> str:
    """Make one change and return the file's text.

    ``{"table", "row", "fields"}`` sets, without a row adds, with ``"remove": true`` takes away.

    Raises
    ------
    CommandError
        There is no such table or row, or a field cannot hold what was given.
    """
    rows = next((one for one in TABLES if one.name == change.get("table")), None)
    if rows is None:
        raise CommandError(
            where=f"table {change.get('table')!r}"[:80], wrong="the form has none", todo="reload the page"
        )
    known, number, fields = {field.key: field for field in rows.fields}, change.get("row"), change.get("fields", {})
    if not isinstance(fields, Mapping):
        raise CommandError(where=rows.name, wrong="it is not a table of fields", todo="send fields by their names")
    held = _held(document, rows)
    if number is None:
        _add(held, fields, known, rows)
        return tomlkit.dumps(document)
    if isinstance(number, bool) or not isinstance(number, int) or not 0 <= number < len(held):
        raise CommandError(where=f"{rows.one} {number!r}"[:80], wrong="there is no such row", todo="reload the page")
    if change.get("remove") is True:
        return _without(document, held, number)
    put(held[number], fields, known, f"[[{rows.name}]] {number + 1}")
    return tomlkit.dumps(document)


def _without(document: TOMLDocument, held: MutableSequence[Any], number: int) -> str:
    """Return the text without a row. What is written below its last key is about something else, and stays."""
    row = held[number]
    if not isinstance(row, Table):
        del held[number]
        return tomlkit.dumps(document)
    body = row.value.body
    del body[: 1 + max((index for index, (key, _) in enumerate(body) if key is not None), default=-1)]
    mark = "# taken away"
    while mark in tomlkit.dumps(document):
        mark += "."
    row.trivia.comment_ws, row.trivia.comment = " ", mark
    return "".join(line for line in tomlkit.dumps(document).splitlines(keepends=True) if mark not in line)


def _held(document: TOMLDocument, rows: Rows) -> MutableSequence[Any]:
    """Return the file's own list of rows, made where there is none."""
    table: Any = document
    for step in rows.path[:-1]:
        if step not in table:
            table[step] = tomlkit.table()
        table = table[step]
    last = rows.path[-1]
    if isinstance(table, MutableMapping) and last not in table:
        if isinstance(table, TOMLDocument):
            table.add(tomlkit.nl())
        table[last] = tomlkit.array() if isinstance(table, InlineTable) else tomlkit.aot()
    held = table[last] if isinstance(table, MutableMapping) else None
    if not isinstance(held, MutableSequence):
        raise CommandError(where=rows.name, wrong="the file holds no list of them", todo="correct it in the whole file")
    return held


def _add(held: MutableSequence[Any], fields: Mapping[str, Any], known: Mapping[str, Field], rows: Rows) -> None:
    """Put a new row behind the others, its keys in the form's order."""
    ordered = {key: fields[key] for key in known if key in fields} | dict(fields)
    plain = isinstance(held, Array)  # rows written as [{…}, {…}]
    table: Any = tomlkit.inline_table() if plain else tomlkit.table()
    put(table, ordered, known, f"[[{rows.name}]] {len(held) + 1}")
    if not plain:
        table.add(tomlkit.nl())
    held.append(table)


def place_of(where: str) -> dict[str, Any] | None:
    """Return the table, row (from 0; or its name) and key that an error speaks of; None where it speaks of no row.

    >>> place_of("job.toml [[hardware]] 3 bore_mm")
    {'table': 'hardware', 'row': 2, 'key': 'bore_mm'}
    >>> place_of("job.toml [[cord]] 'pull cord' part")
    {'table': 'cord', 'row': 'pull cord', 'key': 'part'}
    """
    found = re.search(r"\[\[(?:size\.)?(\w+)\]\] (?:(\d+)|'(.*)') (\w+)$", where)
    if found is None or found[1] not in {rows.name for rows in TABLES}:
        return None
    return {"table": found[1], "row": int(found[2]) - 1 if found[2] else found[3], "key": found[4]}
