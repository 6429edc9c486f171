"""What to do when a plate goes wrong, by what is seen: the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from planner.errors import ProfileError
from planner.job.file.toml_file import read_toml
from planner.job.profiles.shipped import shipped

Does = Literal["stop", "leave-out", "weigh", "finish"]
DOES: tuple[Does, ...] = get_args(Does)


@dataclass(frozen=True, slots=True, kw_only=True)
class FailureRule:
    """One cause, and whether the rest of the plate can still become good."""

    cause: str
    about: str
    """What is seen."""
    does: Does
    """What to do with the rest of the plate."""
    why: str
    """Why."""
    source: str
    """Where the advice comes from."""


def read_failure_rules() -> dict[str, FailureRule]:
    """Read the shipped rules, by cause."""
    table = read_toml(shipped("profiles") / "failures.toml", ProfileError)
    rules = {}
    for cause in table.raw:
        row = table.table(cause)
        rules[cause] = FailureRule(
            cause=cause,
            about=row.text("about"),
            does=row.word("does", DOES),
            why=row.text("why"),
            source=row.text("source"),
        )
        row.done()
    return rules
