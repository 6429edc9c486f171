"""Tables of the PDF in the order of reading: from right to left, columns, rooms and lines change sides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from reportlab.platypus import Table, TableStyle

SIDES = {"LEFTPADDING": "RIGHTPADDING", "RIGHTPADDING": "LEFTPADDING"}
Command = tuple[Any, ...]
"""What the PDF library takes: a name, the first and last cell as (column, row), and what is asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How a paper's words are set: ``translated`` ones line by line, from the right where they run ``leftward``."""

    translated: bool = False
    leftward: bool = False
    tall: bool = False
    """Whether its letters reach higher and lower than Latin ones; then all lines stand farther apart."""


def table(
    rows: Sequence[Sequence[Any]], widths_pt: Sequence[float], look: Sequence[Command], way: Way, *, heads_n: int = 0
) -> Table:
    """Return a table whose ``look`` counts columns in the order of reading; ``heads_n`` rows stand on every page."""
    if way.leftward:
        look = [mirrored(one, len(widths_pt)) for one in look]
        rows, widths_pt = [list(reversed(row)) for row in rows], list(reversed(widths_pt))
        for _, (first, top), (last, _) in (one for one in look if one[0] == "SPAN"):
            rows[top][first], rows[top][last] = rows[top][last], rows[top][first]  # the library shows a span's leftmost
    return Table(
        [list(row) for row in rows], colWidths=list(widths_pt), repeatRows=heads_n, style=TableStyle(list(look))
    )


def mirrored(command: Command, columns_n: int) -> Command:
    """Return a command for the same cells when the first column stands at the right.

    >>> mirrored(("SPAN", (1, 4), (2, 4)), 3)
    ('SPAN', (0, 4), (1, 4))
    >>> mirrored(("RIGHTPADDING", (0, 0), (-1, -1), 6), 3)
    ('LEFTPADDING', (0, 0), (2, -1), 6)
    """
    name, (first, top), (last, bottom), *rest = command
    ends = [columns_n - 1 - (column % columns_n) for column in (first, last)]
    return (SIDES.get(name, name), (min(ends), top), (max(ends), bottom), *rest)
