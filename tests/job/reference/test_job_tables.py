"""The reference of ``job.toml`` against job files that are read."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from planner.job.reference.job_tables import job_tables


def _used(table: dict[str, Any], name: str = "") -> set[tuple[str, str]]:
    """Return every table and key of a file, tables within tables by their path."""
    found = set()
    for key, value in table.items():
        inner = value if isinstance(value, list) else [value]
        tables = [one for one in inner if isinstance(one, dict)]
        if tables:
            for one in tables:
                found |= _used(one, f"{name}.{key}".strip("."))
        else:
            found.add((name, key))
    return found


def test_every_key_of_the_sample_job_stands_in_the_reference(heron: Path) -> None:
    """What a job file uses can be looked up under its table."""
    known = {(table.name, key.name) for table in job_tables() for key in table.keys}
    used = _used(tomllib.loads(heron.read_text(encoding="utf-8")))

    assert len(used) > 30
    assert used - known == set()


def test_each_key_is_told_once_in_a_sentence() -> None:
    """No table has a key twice, and each meaning is a sentence."""
    for table in job_tables():
        names = [key.name for key in table.keys]
        assert len(names) == len(set(names)) > 0
        assert [key.name for key in table.keys if not key.meaning.endswith(".")] == []
