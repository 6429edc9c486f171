"""What to do today, in the order of the day: what ends, what to start, who builds what, what to order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from planner.phrases import day_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing to do: when (a moment, or midnight for any hour), what, and what is said of it."""

    at: datetime
    what: str
    more: str = ""

    @property
    def hour(self) -> str:
        """Its hour; empty where any will do."""
        return f"{self.at:%H:%M}" if (self.at.hour, self.at.minute) != (0, 0) else ""


def tasks_of(sums: Mapping[str, Any]) -> list[Task]:
    """Return all that people have to do, in order."""
    found = [
        Task(at=_at(row["start"]), what=f"Print the coupon of {row['material']} on {row['printer']}", more=row["why"])
        for row in sums["coupons"]
        if row["start"]
    ]
    for row in sums["running"]:
        log = f"then fitwright done {row['plate']}, or failed {row['plate']}"
        found.append(Task(at=_at(row["end"]), what=f"{row['plate']} ends on {row['printer']}: look at it", more=log))
    for row in (row for row in sums["schedule"] if row["start"]):
        name = row["id"] or f"{row['job']}, plate {row['plate']},"
        spool = f"spool {row['spool']}" if row["spool"] else ""
        until = f"until {_at(row['end']):%a %H:%M}"
        more = ", ".join(part for part in (spool, until, row["reason"]) if part)
        found.append(Task(at=_at(row["start"]), what=f"Start {name} on {row['printer']}", more=more))
    found += [
        Task(
            at=_at(row["start"]),
            what=f"{row['person']}: {row['step']}, {row['job']}",
            more=f"until {_at(row['end']):%a %H:%M}",
        )
        for row in sums["hands"]
    ]
    for row in (row for row in sums["buy"] if row["order_by"]):
        need = f"for {', '.join(row['jobs'])}, needed on {day_words(_at(row['by']))}"
        found.append(Task(at=_at(row["order_by"]), what=f"Order {row['n']:g} {row['unit']} {row['item']}", more=need))
    return sorted(found, key=lambda task: task.at)


def on_day(tasks: list[Task], today: date) -> tuple[list[Task], list[Task]]:
    """Return what is to be done today, with orders that are overdue first, and what comes next after today."""
    now = [task for task in tasks if task.at.date() == today or (task.at.date() < today and task.what[:6] == "Order ")]
    later = [task for task in tasks if task.at.date() > today]
    return now, [task for task in later if task.at.date() == later[0].at.date()]


def _at(text: str) -> datetime:
    """Return a moment, or the midnight of a day."""
    return datetime.fromisoformat(text)
