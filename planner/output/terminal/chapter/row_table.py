"""Rows of a ledger as a table in a terminal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from rich.markup import escape
from rich.table import Table
from rich.text import Text

from planner.phrases import moment

UNITS = {"_g": ("g", 1.0), "_s": ("h", 3600.0), "_percent": ("%", 1.0)}
"""Ends of names that say a unit: how it is shown, and by what it is divided."""
MOMENTS = ("at", "start", "end", "opened")
"""Names of moments."""


def row_table(title: str, rows: Sequence[Mapping[str, object]]) -> Table | Text:
    """Return rows of one kind, a column for each of their names; a sentence where there are none."""
    if not rows:
        return Text(f"{title}: nothing yet")
    table = Table(title=title, title_justify="left", box=None, padding=(0, 1, 0, 0))
    for name in rows[0]:
        number = any(isinstance(row[name], int | float) and not isinstance(row[name], bool) for row in rows)
        whole = name in (*MOMENTS, "id", "plate")
        table.add_column(_head(name), justify="right" if number else "left", overflow="fold", no_wrap=whole)
    for row in rows:
        table.add_row(*(escape(cell_words(name, value)) for name, value in row.items()))
    return table


def _head(name: str) -> str:
    """Return a column's head: a name with its unit."""
    for end, (unit, _) in UNITS.items():
        if name.endswith(end):
            return f"{name.removesuffix(end).replace('_', ' ')}, {unit}"
    return name.replace("_", " ")


def cell_words(name: str, value: object) -> str:
    """Return a value as people write it.

    >>> cell_words("duration_s", 5400.0), cell_words("pieces", {"jaw": 2}), cell_words("overdue", True)
    ('1.5', 'jaw x 2', 'yes')
    """
    if value is None or value == "":
        return "-"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Mapping):
        return ", ".join(f"{part} x {n}" for part, n in value.items()) or "none"
    if isinstance(value, float):
        divisor = next((by for end, (_, by) in UNITS.items() if name.endswith(end)), 1.0)
        return f"{value / divisor:.1f}".removesuffix(".0")
    return moment(datetime.fromisoformat(str(value))) if name in MOMENTS else str(value)
