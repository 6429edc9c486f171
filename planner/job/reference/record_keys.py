"""Keys of a table, read off the record that its reader fills: type, unit, default and meaning."""

from __future__ import annotations

import dataclasses
import types
import typing
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import Any, Literal

from planner.finding import Vec3
from planner.job.calendar import Attended
from planner.job.job import PartScale
from planner.job.profiles.body_sizes import BodySize
from planner.job.profiles.environments import Environment
from planner.job.profiles.limits import Limits
from planner.job.profiles.material import Material
from planner.job.profiles.print_settings import Settings
from planner.job.profiles.printer import Printer
from planner.job.reference.field_text import field_texts
from planner.job.reference.key import NEEDED, Key
from planner.job.reference.key_unit import unit_of
from planner.sourced import Sourced

TAKES: dict[Any, str] = {
    bool: "true, false",
    int: "whole number",
    float: "number",
    Sourced: "number",
    str: "text",
    Path: "file",
    date: "day",
    datetime: "day and time",
    Vec3: "[x, y, z]",
    BodySize: "name",
    **dict.fromkeys((Printer, Material, Settings, Limits), "name or file"),
    tuple[str, ...]: "list of texts",
    tuple[str, str]: "two texts",
    tuple[float, float]: "two numbers",
    tuple[float, ...]: "list of numbers",
    tuple[Sourced, ...]: "list of numbers",
    tuple[Environment, ...]: "list of names",
    tuple[Attended, ...]: 'list of "Mon-Fri 17:30-22:30"',
    tuple[tuple[str, ...], ...]: "list of lists of texts",
    tuple[tuple[float, float], ...]: "list of [x, y]",
    tuple[tuple[tuple[float, float], ...], ...]: "list of lists of [x, y]",
    tuple[tuple[int, float, float], ...]: "rows of three numbers",
}
"""What a type is called in the reference."""


def keys_of(
    record: type,
    fields: Sequence[str] = (),
    *,
    without: Sequence[str] = (),
    named: Mapping[str, str] | None = None,
    takes: Mapping[str, str] | None = None,
    defaults: Mapping[str, str] | None = None,
) -> tuple[Key, ...]:
    """Return the keys of a record's fields, or of some of them.

    Parameters
    ----------
    record
        The record that the table's reader fills.
    fields, without
        Those to take, all where none is named; and those to leave out.
    named
        Keys by field, where the file calls a field something else.
    takes, defaults
        By field, where the file takes something else than the record's type, or its reader knows a default.
    """
    hints, texts = typing.get_type_hints(record), field_texts(record)
    found = []
    for field in dataclasses.fields(record):
        if (fields and field.name not in fields) or field.name in without:
            continue
        taken = (takes or {}).get(field.name) or _takes(hints[field.name])
        found.append(
            Key(
                name=(named or {}).get(field.name, field.name),
                takes=taken,
                unit=unit_of(field.name) if "number" in taken and taken != TAKES[int] else "",
                default=(defaults or {}).get(field.name, _default(field)),
                meaning=texts[field.name],
            )
        )
    return tuple(found)


def _takes(hint: Any) -> str:
    """Return what a type takes, in words; a union's None means that the key may be left out."""
    if hint in TAKES:
        return TAKES[hint]
    if hint == PartScale:
        return '"job", number or [x, y, z]'
    if typing.get_origin(hint) is Literal:
        return ", ".join(str(word) for word in typing.get_args(hint))
    if typing.get_origin(hint) in (typing.Union, types.UnionType):
        return " or ".join(_takes(one) for one in typing.get_args(hint) if one is not type(None))
    if typing.get_origin(hint) is tuple:
        return f"list of {_takes(typing.get_args(hint)[0])}"
    return f"{{ {', '.join(field.name for field in dataclasses.fields(hint))} }}"


def _default(field: dataclasses.Field[Any]) -> str:
    """Return a field's default as the file would write it; empty where nothing stands for it."""
    value = field.default
    if value is dataclasses.MISSING:
        return NEEDED
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, Sourced):
        return f"{value.value:g}"
    if isinstance(value, int | float):
        return f"{value:g}"
    return str(value) if value else ""
