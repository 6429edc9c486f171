"""The reference of profiles against those that are shipped."""

from __future__ import annotations

import re
import tomllib

import pytest

from planner.job import shipped
from planner.job.reference.profile_tables import INNER, profile_tables

NUMBER = {"value", "source"}
RANGE = re.compile(r"^(undersize\..*)_(low|high)_mm$")
"""Ends of an undersize's range, which the reference tells in the heading of its table."""


def _keys(kind: str, name: str) -> set[str]:
    """Return the keys of a shipped profile, those of its tables by their path; a number with a source is one key."""
    found = set()
    for key, value in tomllib.loads((shipped("profiles") / kind / name).read_text(encoding="utf-8")).items():
        if isinstance(value, dict) and not NUMBER & value.keys():
            found |= {f"{key}.{inner}" for inner in value}
        else:
            found.add(key)
    return found


@pytest.mark.parametrize(("kind", "table"), [("printers", "printer"), ("materials", "material")])
def test_every_key_of_a_shipped_profile_stands_in_the_reference(kind: str, table: str) -> None:
    """With its tables: what a file that one copies holds can be looked up."""
    known = set()
    for one in profile_tables():
        inner = one.name.removeprefix(table).strip(".")
        if one.name == table:
            known |= {key.name for key in one.keys}
        elif one.name.startswith(f"{table}.") and inner in INNER:
            known |= {f"{inner}.{key.name}" for key in one.keys}
    files = [path.name for path in (shipped("profiles") / kind).glob("*.toml")]
    missing = {(name, key) for name in files for key in _keys(kind, name) if RANGE.sub(r"\1_mm", key) not in known}

    assert len(files) > 3
    assert missing == set()
