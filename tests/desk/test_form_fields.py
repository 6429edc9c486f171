"""Fields of a form: read off a record's types, and values put into a file with its comments kept."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any, Literal

import pytest
import tomlkit

from planner.desk.form_fields import Field, fields_of, put
from planner.errors import CommandError


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """A record with one key of every kind."""

    name: str
    bore_mm: float | None = None
    count: int = 1
    handed: bool = False
    fit: Literal["turning", "press"] = "turning"
    part: str = ""
    joins: tuple[str, ...] = ()
    deadline: date | None = None
    colour: str = "any"
    path: tuple[str, ...] = ()
    guessed: tuple[str, ...] = ()


FIELDS = {field.key: field for field in fields_of(_Row, choices={"colour": ("any", "green")})}
TEXT = '[row]\nname = "a"\nbore_mm = 5.0  # GUESS usual\ncount = 2  # two hands\nguessed = ["bore_mm", "fit"]\nfit = "press"\n'


def test_kinds_follow_the_types_and_what_places_meshes_is_left_out() -> None:
    """One of every kind; only the key without a default is needed; words come from the type or are given."""
    assert {key: field.kind for key, field in FIELDS.items()} == {
        "name": "text",
        "bore_mm": "number",
        "count": "whole",
        "handed": "yes",
        "fit": "choice",
        "part": "part",
        "joins": "parts",
        "deadline": "day",
        "colour": "choice",
    }
    assert [key for key, field in FIELDS.items() if field.needed] == ["name"]
    assert (FIELDS["fit"].choices, FIELDS["colour"].choices) == (("turning", "press"), ("any", "green"))


def test_a_number_is_called_by_its_key_without_the_unit() -> None:
    """``bore_mm`` is "bore" in mm; a word that ends like a unit has none."""
    told = FIELDS["bore_mm"].told()

    assert (told["label"], told["unit"], told["hint"]) == ("bore", "mm", "as drawn")
    assert (Field(key="wall_mm2", kind="number").unit, Field(key="g", kind="number").unit) == ("mm²", "")
    assert (Field(key="in_mm", kind="text").label, Field(key="in_mm", kind="text").unit) == ("in mm", "")


def _after(given: dict[str, Any], text: str = TEXT) -> str:
    """Return the file after values were put in."""
    file: Any = tomlkit.parse(text)
    put(file["row"], given, FIELDS, "row 1")
    return tomlkit.dumps(file)


def test_a_changed_value_is_no_guess_any_more_and_other_comments_stay() -> None:
    """The mark and the entry go with the change; written as it was, both stay; a comment of a person always does."""
    assert _after({"bore_mm": 5.0}) == TEXT
    changed = _after({"bore_mm": 6, "count": 3})

    assert "bore_mm = 6.0\n" in changed
    assert "count = 3  # two hands" in changed
    assert 'guessed = ["fit"]' in changed
    assert "guessed" not in _after({"fit": "turning"}, changed)


@pytest.mark.parametrize("empty", [None, "", []])
def test_an_empty_value_takes_its_key_out_with_its_guess(empty: object) -> None:
    """Neither the key nor its entry is left."""
    after = tomlkit.parse(_after({"bore_mm": empty})).unwrap()["row"]

    assert after == {"name": "a", "count": 2, "guessed": ["fit"], "fit": "press"}


@pytest.mark.parametrize(
    ("key", "value", "kept"),
    [
        ("bore_mm", 4, 4.0),
        ("count", 3.0, 3),
        ("handed", True, True),
        ("joins", ["a", "b"], ["a", "b"]),
        ("deadline", "2026-12-24", date(2026, 12, 24)),
        ("name", "b", "b"),
    ],
)
def test_values_are_kept_as_the_file_holds_them(key: str, value: object, kept: object) -> None:
    """A number is a float, a whole one an integer, a day a day."""
    found = tomlkit.parse(_after({key: value})).unwrap()["row"][key]

    assert (found, type(found)) == (kept, type(kept))


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("bore_mm", "5"),
        ("bore_mm", True),
        ("bore_mm", float("nan")),
        ("bore_mm", 1e300),
        ("count", 2.5),
        ("handed", 1),
        ("joins", ["a", 1]),
        ("deadline", "24.12.2026"),
        ("name", 3),
        ("colours", "green"),
    ],
)
def test_what_is_of_the_wrong_kind_or_not_known_is_refused_and_nothing_written(key: str, value: object) -> None:
    """The sentence names the row; the table is as it was."""
    file: Any = tomlkit.parse(TEXT)
    with pytest.raises(CommandError) as refused:
        put(file["row"], {key: value}, FIELDS, "row 1")

    assert refused.value.where.startswith("row 1 ")
    assert tomlkit.dumps(file) == TEXT
