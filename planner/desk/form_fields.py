"""Fields of a form: what a job's own records say of a key becomes a label, a unit and a kind."""

from __future__ import annotations

import dataclasses
import types
import typing
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Literal

from tomlkit.items import AbstractTable, Item

from planner.errors import CommandError

Kind = Literal["text", "number", "whole", "yes", "choice", "part", "parts", "day"]
UNITS = {"mm2": "mm²", "mm": "mm", "deg": "°", "percent": "%", "g": "g", "n": "N"}
NUMBER_MOST = 1e15
"""Numbers beyond it, and what is none, are refused before the job reader is asked."""
GUESS_MARK, GUESSED = "# GUESS", "guessed"
"""What a started job file writes behind a value that nobody stated, and the list that is read back."""
UNASKED = ("path", "drives", "drawn_from", "grip_at_mm", "other_bores")
"""Keys that name places of meshes, or hold tables, are written into the file; a row keeps them as they are."""
HINTS = {
    "bore_mm": "as drawn",
    "stack_mm": "at 100 %",
    "path_mm": "at 100 %",
    "channel_mm": "as drawn",
    "slot_mm": "as drawn",
    "around_mm": "the recipient, over the padding",
    "recipient_mm": "of the recipient",
    "device_mm": "the same inside the device, at 100 %",
    "size_mm": "seat of a nut, washer or insert",
    "bends_deg": "sum of all turns",
    "lever": "its force over the force at the tip; empty: from the path",
    "rate_n_per_mm": "of an elastic, for each mm of stretch",
    "equaliser": "what shares the pull among several cords",
    "force_n": "of an elastic at full stretch, by a spring balance",
    "slack_mm": "as tied, with the joint open",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field: its key in the file, how it is called, its unit, what it takes, and whether a row needs it."""

    key: str
    kind: Kind
    choices: tuple[str, ...] = ()
    needed: bool = False

    @property
    def unit(self) -> str:
        """The unit by the key's ending; empty for words and plain numbers."""
        ending = self.key.rpartition("_")[2]
        return UNITS.get(ending, "") if self.kind == "number" and "_" in self.key else ""

    @property
    def label(self) -> str:
        """The key in words, its unit left out."""
        words = self.key.rpartition("_")[0] if self.unit else self.key
        return words.replace("_", " ")

    def told(self) -> dict[str, Any]:
        """Return what a page needs to show it."""
        return dataclasses.asdict(self) | {"label": self.label, "unit": self.unit, "hint": HINTS.get(self.key, "")}


def fields_of(record: type, *, choices: Mapping[str, tuple[str, ...]]) -> tuple[Field, ...]:
    """Return the fields of a job's record in its order; ``choices`` for keys whose words its types do not name."""
    hints = typing.get_type_hints(record)
    return tuple(
        Field(
            key=one.name,
            kind=_kind(one.name, hints[one.name], chosen=one.name in choices),
            choices=choices.get(one.name, _words(hints[one.name])),
            needed=one.default is dataclasses.MISSING and one.default_factory is dataclasses.MISSING,
        )
        for one in dataclasses.fields(record)
        if one.name != GUESSED and one.name not in UNASKED
    )


def _options(hint: Any) -> tuple[Any, ...]:
    """Return what a type may be, None left out."""
    union = typing.get_origin(hint) in (typing.Union, types.UnionType)
    return tuple(one for one in (typing.get_args(hint) if union else (hint,)) if one is not type(None))


def _words(hint: Any) -> tuple[str, ...]:
    """Return the words that a type names."""
    return tuple(
        str(word) for one in _options(hint) if typing.get_origin(one) is Literal for word in typing.get_args(one)
    )


def _kind(key: str, hint: Any, *, chosen: bool) -> Kind:
    """Return what a key takes."""
    first = _options(hint)[0]
    if chosen or _words(hint):
        return "choice"
    if first is str:
        return "part" if key == "part" else "text"
    if typing.get_origin(first) is tuple:
        return "parts"
    kinds: dict[type, Kind] = {bool: "yes", int: "whole", float: "number", date: "day"}
    return kinds[first]


def put(table: Any, given: Mapping[str, Any], known: Mapping[str, Field], where: str) -> None:
    """Put values into one table of a file, comments kept; an empty value takes its key out.

    A value that is changed, or taken out, is no guess any more: the mark behind it goes, and its key from the list.

    Raises
    ------
    CommandError
        A field is not known, or its value is of the wrong kind.
    """
    for key, value in given.items():
        if key not in known:
            raise CommandError(where=f"{where} {key!r}"[:100], wrong="no field is called that", todo="reload the page")
        if value is None or value in ("", []):
            if key in table:
                del table[key]
            _stated(table, key)
            continue
        before, now = table.get(key), _taken(known[key], value, where)
        table[key] = now
        if before is not None and before != now:
            _stated(table, key)


def _stated(table: Any, key: str) -> None:
    """Take the mark of a guess off a key that somebody has changed; any other comment stays."""
    if key in table.get(GUESSED, ()):
        table[GUESSED] = [one for one in table[GUESSED] if one != key]
    if GUESSED in table and not table[GUESSED]:
        del table[GUESSED]
    if key not in table:
        return
    line = table.value.item(key) if isinstance(table, AbstractTable) else None
    if isinstance(line, Item) and line.trivia.comment.startswith(GUESS_MARK):
        line.trivia.comment_ws = line.trivia.comment = ""


def _taken(field: Field, value: Any, where: str) -> Any:
    """Return a value as the file holds it; refuse one of the wrong kind."""
    number = isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= NUMBER_MOST
    match field.kind:
        case "number" if number:
            return float(value)
        case "whole" if number and value == int(value):
            return int(value)
        case "yes" if isinstance(value, bool):
            return value
        case "parts" if isinstance(value, list) and all(isinstance(one, str) for one in value):
            return value
        case "day" if isinstance(value, str):
            try:
                return datetime.strptime(value, "%Y-%m-%d").date()  # noqa: DTZ007  a day has no zone
            except ValueError:
                pass
        case "text" | "choice" | "part" if isinstance(value, str):
            return value
    meant = {"number": "number", "whole": "whole number", "yes": "yes or no", "day": "day", "parts": "list of parts"}
    raise CommandError(
        where=f"{where} {field.key}",
        wrong=f"{str(value)[:40]!r} cannot be",
        todo=f"give a {meant.get(field.kind, 'text')}",
    )
