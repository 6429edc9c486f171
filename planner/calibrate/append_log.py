"""A plate more in the print log: its columns, its separator and all that stands in it are kept."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from pathlib import Path

from planner.calibrate.print_log import COLUMNS, Print, read_log
from planner.whole_file import whole


def append_print(path: Path, one: Print) -> None:
    """Append a plate to a log, or begin one; the file is written whole or not at all.

    A log without some of the columns keeps its own, and what it has no column for is left out.

    Raises
    ------
    ProfileError
        The log that is there cannot be read.
    """
    text, head, dialect = "", list(COLUMNS), ","
    if path.exists():
        read_log(path)  # what cannot be read is not written to
        text = path.read_text(encoding="utf-8-sig")
        first = text.split("\n", 1)[0]
        dialect = ";" if first.count(";") > first.count(",") else ","
        head = [name.strip().lower() for name in next(csv.reader([first], delimiter=dialect))]
        text = text if text.endswith("\n") or not text else text + "\n"
    cells = {
        "plate": one.plate,
        "planned_h": _told(one.planned_h),
        "real_h": _told(one.real_h),
        "planned_g": _told(one.planned_g),
        "real_g": _told(one.real_g),
        "outcome": "failed" if one.failed else "done",
        "cause": one.cause,
        "failed_at_h": _told(one.failed_at_h),
        "pieces": _listed(one.on) if one.on else _told(one.pieces_n),
        "lost": _listed(one.lost),
    }
    out = io.StringIO()
    writer = csv.writer(out, delimiter=dialect, lineterminator="\n")
    if not text:
        writer.writerow(head)
    writer.writerow([cells[name] for name in head])
    with whole(path) as aside:
        aside.write_text(text + out.getvalue(), encoding="utf-8", newline="")


def _listed(pieces: Sequence[tuple[str, int]]) -> str:
    """Return pieces by part, as jaw:4 cap:2."""
    return " ".join(f"{name}:{count}" for name, count in pieces)


def _told(value: float | None) -> str:
    """Return a number for a person, or nothing."""
    return "" if value is None else f"{value:.2f}".rstrip("0").rstrip(".")
