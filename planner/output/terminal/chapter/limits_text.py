"""What limits a chapter in a terminal: who is late, what binds, what one more would buy, who does what."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from rich.markup import escape
from rich.table import Table

from planner.phrases import capital, day_words, listed, moment, plural

MOST_N = 4
"""So many jobs are named; the rest is counted."""


def late_lines(sums: dict[str, Any]) -> list[str]:
    """Return the jobs that are late, the worst first, in sentences."""
    return [f"HOLD {row['job']}: {row['why']}" for row in sums["late"]]


def change_lines(sums: dict[str, Any]) -> list[str]:
    """Return what is otherwise than in the last plan, in sentences.

    >>> change_lines({"changes": [{"job": "R-04", "was": "by Tue", "now": "by Thu", "why": "bench-2 failed"}]})
    ['R-04: by Tue; now by Thu, because bench-2 failed']
    >>> change_lines({"changes": [], "moved": {"plates": 3, "days": 1}})
    ['3 plates moved, 1 day won: moves_a_day in chapter.toml weighs one against the other']
    """
    lines = [f"{row['job']}: {row['was']}; now {row['now']}, because {row['why']}" for row in sums["changes"]]
    moved = sums.get("moved", {"plates": 0})
    if moved["plates"]:
        plates, won = plural(moved["plates"], "plate"), plural(moved["days"], "day")
        lines.append(f"{plates} moved, {won} won: moves_a_day in chapter.toml weighs one against the other")
    return lines


def limit_lines(sums: dict[str, Any]) -> list[str]:
    """Return the binding constraint, and what one more of each would buy, in sentences."""
    bound = sums["bottleneck"]
    if bound is None:
        return []
    lines = [f"{bound['what']}: {bound['short']}"]
    for buy in bound["buys"]:
        gains = [f"about {plural(buy['days'], 'fewer day')} late"] if buy["days"] else []
        gains += [f"about {plural(buy['devices'], 'more device')} with a date"] if buy["devices"] > 0 else []
        lines.append(f"{capital(buy['what'])}: {', '.join(gains) or 'no day that this comparison finds'}")
    return [*lines, capital(bound["how"])] if bound["buys"] and bound.get("how") else lines


def buy_lines(sums: dict[str, Any]) -> list[str]:
    """Return what is to be bought beside the stock, the most urgent first, in sentences.

    >>> row = {"item": "braided 1 mm", "unit": "m", "n": 1.2, "need_n": 3.2, "have_n": 2.0, "jobs": ["R-01"]}
    >>> buy_lines({"buy": [row | {"by": "2026-12-14", "order_by": "2026-12-07", "slack_days": -2}]})
    ['braided 1 mm: 1.2 m more (3.2 needed, 2 in stock) for R-01 by Mon 14 Dec: order by Mon 7 Dec, 2 days too late']
    """
    return [_buy_line(row) for row in sums.get("buy", ())]


def _buy_line(row: dict[str, Any]) -> str:
    """Return what is to be bought of one thing."""
    line = (
        f"{row['item']}: {row['n']:.4g} {row['unit']} more ({row['need_n']:.4g} needed, {row['have_n']:.4g} in stock)"
    )
    line += f" for {listed(row['jobs'], most_n=MOST_N)}"
    if row["by"] is None:
        return f"{line}, by no known day"
    line += f" by {day_words(date.fromisoformat(row['by']))}"
    if row["order_by"] is None:
        return f"{line}; how long a delivery takes is not stated"
    slack = row["slack_days"]
    left = f"{plural(slack, 'day')} from now" if slack >= 0 else f"{plural(-slack, 'day')} too late"
    return f"{line}: order by {day_words(date.fromisoformat(row['order_by']))}, {left}"


def running_lines(sums: dict[str, Any]) -> list[str]:
    """Return the plates that run, in sentences."""
    return [f"{row['plate']} on {row['printer']} until {_day(row['end'])}" for row in sums["running"]]


def hands_table(sums: dict[str, Any]) -> Table:
    """Return who does what when."""
    table = Table(title="\nWho does what", title_justify="left", box=None, padding=(0, 1, 0, 0))
    for title in ("start", "end", "person", "job", "step"):
        table.add_column(title, overflow="fold")
    for row in sums["hands"]:
        words = (_day(row["start"]), _day(row["end"]), escape(row["person"]), escape(row["job"]), escape(row["step"]))
        table.add_row(*words)
    return table


def _day(when: str) -> str:
    """Return a moment as people write it."""
    return moment(datetime.fromisoformat(when))
