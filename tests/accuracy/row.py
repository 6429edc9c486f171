"""One row of the accuracy page: what a source outside the project says, and what we come to by ourselves."""

from __future__ import annotations

import csv
from collections.abc import Callable
from dataclasses import dataclass

from tests.shapes import DATA


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A figure of a source, and the call that recomputes it."""

    source: str
    """A key of ``SOURCES``."""
    what: str
    expected: float
    unit: str
    within: float
    """How far ours may lie off, in the row's unit."""
    ours: Callable[[], float]
    slow: bool = False
    """Takes seconds: only the whole page recomputes it."""


def table(name: str) -> list[dict[str, str]]:
    """Return the rows of a published table among the tests' data."""
    lines = (DATA / "references" / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))
