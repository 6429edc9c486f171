"""What a person would answer about three devices, read from ``tests/data/guesses``."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from planner.assembly import with_guesses
from planner.job import Job
from planner.survey import Survey
from tests.assembly.by_hand.facts import device

FOLDER = Path(__file__).parents[2] / "data" / "guesses"
DEVICES = ("linkage", "shelf", "heron")


@dataclass(frozen=True, slots=True, kw_only=True)
class Truth:
    """One answer written by hand: the likeliest, what a careful person accepts, and whether form tells at all."""

    what: str
    size_mm: float
    through: bool
    best: str
    also: tuple[str, ...]
    sure: bool


@cache
def scene(name: str) -> tuple[Job, dict[str, Survey]]:
    """Return a device as a folder would make it, with its guesses, and its surveys."""
    job, surveys = device(FOLDER / f"{name}.json")
    return with_guesses(job, surveys), surveys


def told(name: str) -> dict[str, Any]:
    """Return the table of one device."""
    table: dict[str, Any] = tomllib.loads((FOLDER / "truth.toml").read_text(encoding="utf-8"))[name]
    return table


def bore_truths(name: str) -> list[Truth]:
    """Return what is known of a device's bores."""
    return [
        Truth(
            what=f"{name} {row['mm']}",
            size_mm=row["mm"],
            through=row["through"],
            best=row["best"],
            also=tuple(row["also"]),
            sure=row["sure"] == "yes",
        )
        for row in told(name)["bores"]
    ]


def family(option: str) -> str:
    """Return what kind of answer an option is: screw, thread, pin, bearing, insert, cord, nothing.

    >>> family("m3-screw"), family("nothing")
    ('screw', 'nothing')
    """
    return option.rpartition("-")[2]
