"""Keys of a table, read off a record."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from planner.job.reference.key import NEEDED
from planner.job.reference.record_keys import keys_of
from planner.sourced import Sourced, usual

RATE = usual(3.5)


@dataclass(frozen=True)
class _Record:
    """A record."""

    name: str
    """Its name."""
    width_mm: float | None = None
    """Its width."""
    count_n: int = 2
    """How many."""
    kind: Literal["flat", "round"] = "flat"
    """Its kind."""
    rate_mm_s: Sourced = RATE
    """Its rate."""
    on: bool = True
    """Whether."""


def test_type_unit_default_and_meaning_are_the_fields_own() -> None:
    """As a person looks them up: words for types, units for numbers only, and needed where nothing stands for it."""
    found = {key.name: (key.takes, key.unit, key.default, key.meaning) for key in keys_of(_Record)}

    assert found == {
        "name": ("text", "", NEEDED, "Its name."),
        "width_mm": ("number", "mm", "", "Its width."),
        "count_n": ("whole number", "", "2", "How many."),
        "kind": ("flat, round", "", "flat", "Its kind."),
        "rate_mm_s": ("number", "mm/s", "3.5", "Its rate."),
        "on": ("true, false", "", "true", "Whether."),
    }


def test_what_the_file_calls_otherwise_is_called_so() -> None:
    """Some fields alone, some left out, a name, a type and a default of the file's own."""
    keys = keys_of(
        _Record,
        without=("kind", "on", "rate_mm_s", "count_n"),
        named={"width_mm": "wide"},
        takes={"name": "name or file"},
        defaults={"width_mm": "the part's"},
    )

    assert [(key.name, key.takes, key.default) for key in keys] == [
        ("name", "name or file", NEEDED),
        ("wide", "number", "the part's"),
    ]
    assert [key.name for key in keys_of(_Record, ("on",))] == ["on"]
