"""The accuracy page: every row with its source, in Markdown."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from tests.accuracy.body_rows import body_rows
from tests.accuracy.hardware_rows import hardware_rows
from tests.accuracy.motion_rows import motion_rows
from tests.accuracy.row import Row
from tests.accuracy.shape_rows import shape_rows
from tests.accuracy.sources import SOURCES
from tests.accuracy.strength_rows import strength_rows
from tests.accuracy.time_rows import time_rows

PAGE = Path(__file__).with_name("README.md")
ROOMS = {
    "Hardware": hardware_rows,
    "Bodies, places, materials": body_rows,
    "Strength": strength_rows,
    "Motion": motion_rows,
    "Time": time_rows,
    "Shapes": shape_rows,
}


def all_rows() -> tuple[Row, ...]:
    """Return every row of every room."""
    return tuple(row for rows in ROOMS.values() for row in rows())


def told(row: Row, ours: float) -> str:
    """Return one line of the page."""
    off = ours - row.expected
    cells = (
        SOURCES[row.source],
        row.what,
        f"{row.expected:.6g}",
        f"{ours:.6g}",
        f"{off:.2g}" if abs(off) > 1e-9 else "0",
    )
    return f"| {' | '.join(cells)} | {row.within:.2g} | {row.unit} |"


def page(rows: Sequence[Row], ours: Sequence[float]) -> Iterator[str]:
    """Yield the page line by line, from rows and what each was computed to."""
    lines = iter([told(*pair) for pair in zip(rows, ours, strict=True)])
    yield "# Accuracy"
    yield ""
    yield f"What {len({row.source for row in rows})} sources outside the project say, and what we come to: {len(rows)} rows."
    yield "`python -m tests.accuracy` recomputes and rewrites this page; `allowed` is how far a row may lie off."
    yield "Years, volumes and DOIs of textbooks are from memory; a formula's value is worked out beside its row in the code."
    for room, rows_of in ROOMS.items():
        yield from ("", f"## {room}", "", "| source | what | expected | ours | difference | allowed | unit |")
        yield "|---|---|---|---|---|---|---|"
        yield from (next(lines) for _ in rows_of())
