"""The calendar as a board: a row a day, a column for each printer and each person, with what begins there that day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from planner.phrases import day_words

DAYS_MOST = 31
"""Rows shown; what comes later is counted."""
MINUTES_A_DAY = 1440.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One thing in a cell: when it begins and ends, in words, and whether it is late or runs already."""

    start: datetime
    end: datetime
    text: str
    kind: str
    """``print``, ``hand`` or ``runs``."""

    @property
    def hours(self) -> str:
        """Its hours; the day of its end where that is another."""
        other = "" if self.end.date() == self.start.date() else f"{self.end:%a} "
        return f"{self.start:%H:%M}–{other}{self.end:%H:%M}"


@dataclass(frozen=True, slots=True, kw_only=True)
class DayRow:
    """One day: its name, whether it is today, and the entries of every column."""

    name: str
    today: bool
    cells: tuple[tuple[Entry, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """Columns with their days; ``later_n`` entries begin after the last row."""

    columns: tuple[str, ...]
    days: tuple[DayRow, ...]
    later_n: int


def entries_of(sums: Mapping[str, Any]) -> dict[str, list[Entry]]:
    """Return all entries of a chapter's sums by printer, then by person; each list in order of start."""
    found: dict[str, list[Entry]] = {row["printer"]: [] for row in sums["printers"]}
    for row in sums["running"]:
        found.setdefault(row["printer"], []).append(_entry(row, row["plate"], "runs"))
    for row in sums["coupons"]:
        if row["start"]:
            start = datetime.fromisoformat(row["start"])
            coupon = Entry(start=start, end=start, text=f"coupon of {row['material']}", kind="print")
            found.setdefault(row["printer"], []).append(coupon)
    for row in sums["schedule"]:
        if row["start"]:
            name = row["id"] or f"{row['job']} plate {row['plate']}"
            found.setdefault(row["printer"], []).append(_entry(row, name, "print"))
    for row in sums["hands"]:
        found.setdefault(row["person"], []).append(_entry(row, f"{row['job']} {row['step']}", "hand"))
    return {name: sorted(entries, key=lambda one: one.start) for name, entries in found.items()}


def day_board(sums: Mapping[str, Any], today: date) -> Board:
    """Return the board from the first day on which anything begins, but at the latest today."""
    entries = entries_of(sums)
    starts = [one.start.date() for rows in entries.values() for one in rows]
    if not starts:
        return Board(columns=tuple(entries), days=(), later_n=0)
    first = min(today, *starts) if (today - min(starts)).days < DAYS_MOST else today
    days = [first + timedelta(days=step) for step in range(min((max(starts) - first).days + 1, DAYS_MOST))]
    later_n = sum(day > days[-1] for day in starts) if days else len(starts)
    return Board(
        columns=tuple(entries), days=tuple(_day(day, today, list(entries.values())) for day in days), later_n=later_n
    )


def _day(day: date, today: date, columns: Sequence[Sequence[Entry]]) -> DayRow:
    """Return one day."""
    cells = tuple(tuple(one for one in rows if one.start.date() == day) for rows in columns)
    return DayRow(name=day_words(day), today=day == today, cells=cells)


def _entry(row: Mapping[str, Any], text: str, kind: str) -> Entry:
    """Return one row as an entry."""
    start, end = (datetime.fromisoformat(row[key]) for key in ("start", "end"))
    return Entry(start=start, end=end, text=text, kind=kind)
